import { readFileSync } from 'node:fs';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { runDemo } from '../../src/demo/run-demo.js';
import { examples } from '../examples/read-examples.js';

const formCars = (
  JSON.parse(readFileSync(new URL('../../src/demo/event/form-cars.json', import.meta.url), 'utf8')) as { car: string }[]
).map(({ car }) => car);
const revisions = JSON.parse(
  readFileSync(new URL('../../src/demo/event/second-revisions.json', import.meta.url), 'utf8'),
) as { id?: string; car?: string; expected: { resolved: string[]; new: string[] } }[];

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
  const cars = [...examples.map(({ example }) => example.request.circuit.title), ...formCars];

  test('is of two dozen cars and more, each with a name of its own', () => {
    expect(cars.length).toBeGreaterThanOrEqual(24);
    expect(formCars.length).toBeGreaterThanOrEqual(6);
    expect(new Set(cars).size).toBe(cars.length);
  });

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
    for (const car of cars) {
      const text = await readFile(join(folder, `${car.toLowerCase()}.md`), 'utf8');
      expect(text).toMatch(new RegExp(`^# ${car}: `));
      expect(text).toContain('Prove the voltmeter on a known source before and after');
      expect(text).toContain('Treat every capacitor as charged');
    }
  });

  test('compares second revisions, each in two lines', () => {
    // Who was told what is wrong or missing has sent the car in again.
    const sentBack = output.match(/^\w+ +(?:violation found|undetermined) /gm) ?? [];
    expect(revisions).toHaveLength(sentBack.length);
    expect(revisions.length).toBeGreaterThan(12);
    const lines = output.split('Second revisions, compared with the first\n')[1]?.split('\n\n')[0]?.split('\n') ?? [];
    expect(lines).toHaveLength(2 * revisions.length);
    for (const [index, { id, car, expected }] of revisions.entries()) {
      const name = car ?? examples.find(({ example }) => example.id === id)?.example.request.circuit.title;
      expect(lines[2 * index]).toMatch(new RegExp(`^  ${name} +.* → .*Resolved: \\S`));
      for (const rule of expected.new) expect(lines[2 * index]).toContain(rule);
      expect(lines[2 * index + 1]).toMatch(/^ +(Margins: .+ → |No margin moved\.)/);
    }
  });

  test('never speaks an official’s words of a car', async () => {
    const texts = await Promise.all((await readdir(folder)).map((file) => readFile(join(folder, file), 'utf8')));
    for (const text of [output, ...texts]) expect(text).not.toMatch(/(?<!fail-)\bsafe\b|\bpassed\b|\bapproved?\b/i);
  });
});
