import { expect, test } from 'vitest';
import { faultCodes, readCircuit } from '../../src/circuit/index.js';
import { faultCases, spoilt } from './fault-cases.js';
import { faultsOf } from './faults-of.js';

test('the table of codes holds exactly the codes that reading can give', () => {
  const given = new Set(
    faultCases.flatMap((faultCase) => faultsOf(readCircuit(spoilt(faultCase), '#')).map(([, code]) => code)),
  );
  expect([...given].sort()).toEqual(Object.keys(faultCodes).sort());
});

test.each(Object.entries(faultCodes))('%s has a title and a sentence', (code, { title, explanation }) => {
  expect(code).toMatch(/^[a-z]+(-[a-z]+)*$/);
  expect(title).toMatch(/^[A-Z].*[^.]$/);
  expect(explanation).toMatch(/^[A-Z].*\.$/);
});
