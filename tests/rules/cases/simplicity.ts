import { createFacts } from '../../../src/facts/create-facts.js';
import type { RuleCases } from '../rule-case.js';
import { exact, pointerTo, soundCircuit } from '../sound-car.js';
import { student2020 } from '../sound-facts.js';

const facts = (changes: Readonly<Record<string, object | null>>) =>
  createFacts(soundCircuit(changes), student2020.conditions);
/** Open until the car drives: it has a supply of its own, so no start closes it. */
const switching = (from: string, to: string) => ({
  kind: 'contact',
  rest: 'open',
  role: 'other',
  suppliedBy: 'independent',
  construction: 'electromechanical',
  nodes: [from, to],
});
const load = (node: string, ohms: number) => ({
  kind: 'load',
  nodes: [node, 'tn'],
  resistance: exact(ohms),
  startsAbove: 0,
  stopsBelow: 0,
  activeIn: ['precharge', 'drive', 'shutdown'],
});
/** 5 kΩ beside the rise: it would settle at 82 %, so its contact is needed. */
const needed = (index: number) => ({
  [`k-heat-${String(index)}`]: switching('lp', `h${String(index)}`),
  [`heater-${String(index)}`]: load(`h${String(index)}`, 5000),
});
/** 10 MΩ, which nothing notices. */
const idle = { 'k-lamp': switching('lp', 'lamp'), lamp: load('lamp', 1e7) };

const seven = Object.assign({}, ...[1, 2, 3, 4, 5, 6, 7].map(needed)) as Record<string, object>;
/** The same before all others by name, so that it is tried. */
const idleFirst = { 'k-a': switching('lp', 'lamp'), lamp: load('lamp', 1e7) };

export const rows: RuleCases = {
  cases: [
    { name: 'no contact but those with a part', facts: facts({}), status: 'not-applicable', message: 'none' },
    {
      name: 'a contact that keeps a heater off the rise',
      facts: facts(needed(1)),
      status: 'met',
      message: 'met',
      says: ['k-heat-1'],
    },
    {
      name: 'a contact before a lamp that nothing notices',
      facts: facts(idle),
      status: 'violated',
      message: 'violated',
      says: ['k-lamp can be bridged'],
      elements: ['k-lamp'],
    },
    {
      name: 'one of each',
      facts: facts({ ...needed(1), ...idle }),
      status: 'violated',
      message: 'violated',
      elements: ['k-lamp'],
    },
    {
      name: 'a contact to nowhere',
      facts: facts({ 'k-spare': switching('lp', 'nowhere') }),
      status: 'violated',
      message: 'violated',
      says: ['k-spare can be taken out'],
    },
    {
      name: 'a contact across the disconnect, which bridges it',
      facts: facts({ 'k-round': { ...switching('tp', 'lp'), rest: 'closed' } }),
      status: 'met',
      message: 'met',
      says: ['k-round'],
    },
    {
      name: 'a lamp’s contact, another finding being open',
      facts: facts({ ...idle, 'k-pre': { construction: undefined } }),
      status: 'undetermined',
      message: 'undetermined',
      missing: [pointerTo(soundCircuit(), 'k-pre', 'construction')],
    },
    {
      name: 'more contacts than can be tried',
      facts: facts(seven),
      status: 'undetermined',
      message: 'tooMany',
      missing: ['#/circuit/elements'],
      says: ['k-heat-6 were tried', 'k-heat-7 were not tried'],
      evidence: { notTried: ['k-heat-7'] },
    },
    {
      name: 'more contacts than can be tried, one of them needless',
      facts: facts({ ...seven, ...idleFirst }),
      status: 'violated',
      message: 'violatedSome',
      says: ['k-a can be bridged', 'k-heat-6, k-heat-7 were not tried'],
      elements: ['k-a'],
    },
    {
      name: 'more contacts than can be tried, another finding being open',
      facts: facts({ ...seven, ...idleFirst, 'k-pre': { construction: undefined } }),
      status: 'undetermined',
      message: 'undeterminedSome',
      says: ['k-heat-6, k-heat-7 were not tried'],
      missing: [pointerTo(soundCircuit(), 'k-pre', 'construction')],
    },
  ],
};
