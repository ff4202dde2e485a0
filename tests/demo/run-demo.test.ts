import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runDemo } from '../../src/demo/run-demo.js';
import { examples } from '../examples/read-examples.js';

let folder: string;
let output = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'risefall-demo-'));
  await runDemo({
    write: (text) => {
      output += text;
    },
    width: 120,
    coloured: false,
    folder,
  });
}, 120_000);
afterAll(async () => {
  await rm(folder, { recursive: true });
});

describe('the demo', () => {
  const cars = examples.map(({ example }) => example.request.circuit.title);

  test('has a row for every car', () => {
    for (const car of cars)
      expect(output).toMatch(new RegExp(`^${car} +(no violation found|violation found|undetermined) `, 'm'));
  });

  test('stays within the width, in plain characters without colour', () => {
    expect(output).not.toContain('\u001b');
    for (const line of output.split('\n')) expect(line.length).toBeLessThanOrEqual(120);
  });

  test('says where the reports are and what a result is not', () => {
    expect(output).toContain(`${cars.length} reports, one a car, in ${folder}`);
    expect(output).toContain('This is high voltage and it can kill.');
  });

  test('writes one report a car, each with the car’s name and every caution', async () => {
    const files = await readdir(folder);
    expect(files).toHaveLength(cars.length);
    for (const { example } of examples) {
      const text = await readFile(join(folder, `${example.request.circuit.title.toLowerCase()}.md`), 'utf8');
      expect(text).toMatch(new RegExp(`^# ${example.request.circuit.title}: `));
      expect(text).toContain('Prove the voltmeter on a known source before and after');
      expect(text).toContain('Treat every capacitor as charged');
    }
  });

  test('never speaks an official’s words of a car', async () => {
    const texts = await Promise.all((await readdir(folder)).map((file) => readFile(join(folder, file), 'utf8')));
    for (const text of [output, ...texts]) expect(text).not.toMatch(/(?<!fail-)\bsafe\b|\bpassed\b|\bapproved?\b/i);
  });
});
