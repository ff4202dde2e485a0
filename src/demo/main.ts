import { runDemo } from './run-demo.js';

// A pipe has no columns; 120 keeps most sentences on two lines.
const width = Math.min(Math.max(process.stdout.columns || 120, 80), 150);

// Whoever reads only the first lines (`| head`) closes the pipe: the rest is written to nobody, and the reports all the same.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

try {
  await runDemo({
    write: (text) => process.stdout.write(text),
    width,
    coloured: process.stdout.isTTY && process.env['NO_COLOR'] === undefined,
    terminal: process.stdout.isTTY,
    folder: './demo-reports',
  });
} catch (error) {
  process.stderr.write(`The demo did not go as it should: ${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
}
