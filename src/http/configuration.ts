export interface Configuration {
  readonly host: string;
  readonly port: number;
  readonly logLevel: LogLevel;
}

const LOG_LEVELS = ['fatal', 'error', 'warn', 'info', 'debug', 'trace', 'silent'] as const;
export type LogLevel = (typeof LOG_LEVELS)[number];

/**
 * The process's configuration from its environment: `HOST` (default 127.0.0.1, so that nothing is exposed by accident),
 * `PORT` (default 8080; 0 picks a free one), `LOG_LEVEL` (default info).
 * @throws Error that names the variable whose value makes no sense
 */
export function readConfiguration(environment: Readonly<Record<string, string | undefined>>): Configuration {
  const port = environment['PORT'] ?? '8080';
  if (!/^\d{1,5}$/.test(port) || Number(port) > 65_535)
    throw new Error(`PORT must be a number from 0 to 65535, not ${port}`);
  const given = environment['LOG_LEVEL'] ?? 'info';
  const logLevel = LOG_LEVELS.find((level) => level === given);
  if (logLevel === undefined) throw new Error(`LOG_LEVEL must be one of ${LOG_LEVELS.join(', ')}, not ${given}`);
  return { host: environment['HOST'] ?? '127.0.0.1', port: Number(port), logLevel };
}
