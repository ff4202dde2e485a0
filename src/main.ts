import { buildApp } from './http/build-app.js';
import { readConfiguration } from './http/configuration.js';

const { host, port, logLevel } = readConfiguration(process.env);
const app = await buildApp({ logLevel });

/** Stops taking connections, lets what has begun finish, and leaves; a second signal ends the process at once. */
const stop = (signal: NodeJS.Signals): void => {
  app.log.info({ signal }, 'closing');
  app.close().then(
    () => app.log.info('closed'),
    (error: unknown) => {
      app.log.error({ err: error }, 'closing failed');
      process.exitCode = 1;
    },
  );
};
process.once('SIGTERM', stop);
process.once('SIGINT', stop);

await app.listen({ host, port });
