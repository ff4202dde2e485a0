import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';

export interface Use {
  /** MiB, resident, of the whole process with its threads; the highest since the last time it was asked. */
  readonly peak: number;
  /** s of processor time since the process began. */
  readonly processor: number;
}

export interface Served {
  readonly address: string;
  readonly use: () => Promise<Use>;
  readonly stop: () => Promise<void>;
}

/** Starts the service with so many threads for batches, in a process of its own. */
export async function serve(threads: number): Promise<Served> {
  const child = fork(fileURLToPath(new URL('./served.js', import.meta.url)), [String(threads)]);
  const next = async <T>(): Promise<T> => ((await once(child, 'message')) as [T])[0];
  const address = await next<string>();
  return {
    address,
    use: () => {
      child.send('use');
      return next<Use>();
    },
    stop: async () => {
      child.disconnect();
      await once(child, 'exit');
    },
  };
}
