import { setInterval } from 'node:timers';
import { buildApp } from '../../src/http/build-app.js';

/** ms between two looks at the memory. */
const LOOK = 10;

// The service in a process of its own, so that its memory and processor time are not mixed with its caller's.
const app = await buildApp({ work: { threads: Number(process.argv[2]) } });
const address = await app.listen({ port: 0, host: '127.0.0.1' });
let peak = 0;
setInterval(() => {
  peak = Math.max(peak, process.memoryUsage.rss());
}, LOOK);
process.on('message', () => {
  const { user, system } = process.cpuUsage();
  process.send?.({ peak: peak / 2 ** 20, processor: (user + system) / 1e6 });
  peak = 0;
});
process.on('disconnect', () => process.exit());
process.send?.(address);
