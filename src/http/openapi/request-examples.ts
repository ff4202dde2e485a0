import { exampleRows } from '../../verify/rows/example-rows.js';

/** A small car: one container, pre-charge round the positive relay, a discharge resistor behind a contact closed at rest. */
const smallCar = {
  title: 'Small car',
  elements: [
    {
      id: 'pack',
      kind: 'accumulator',
      nodes: ['bp', 'bn'],
      zone: 'container',
      voltage: { min: '300 V', nominal: '370 V', max: '420 V' },
      resistance: '120 mΩ',
    },
    {
      id: 'main-fuse',
      kind: 'fuse',
      nodes: ['bp', 'fp'],
      zone: 'container',
      ratedCurrent: '80 A',
    },
    {
      id: 'air-pos',
      kind: 'contact',
      nodes: ['fp', 'tp'],
      zone: 'container',
      rest: 'open',
      role: 'isolation-relay',
      construction: 'electromechanical',
      suppliedBy: 'shutdown-circuit',
      releaseTime: '20 ms',
    },
    {
      id: 'air-neg',
      kind: 'contact',
      nodes: ['bn', 'tn'],
      zone: 'container',
      rest: 'open',
      role: 'isolation-relay',
      construction: 'electromechanical',
      suppliedBy: 'shutdown-circuit',
      releaseTime: '20 ms',
    },
    {
      id: 'precharge-relay',
      kind: 'contact',
      nodes: ['fp', 'pr'],
      zone: 'container',
      rest: 'open',
      role: 'precharge-relay',
      construction: 'electromechanical',
      suppliedBy: 'shutdown-circuit',
      releaseTime: '10 ms',
    },
    {
      id: 'precharge-resistor',
      kind: 'resistor',
      nodes: ['pr', 'tp'],
      zone: 'container',
      role: 'precharge',
      resistance: { nominal: '1 kΩ', tolerance: 0.05 },
    },
    { id: 'plug-pos', kind: 'connector', nodes: ['tp', 'up'], zone: 'vehicle', separates: 'main' },
    { id: 'plug-neg', kind: 'connector', nodes: ['tn', 'ln'], zone: 'vehicle', separates: 'main' },
    { id: 'hvd', kind: 'disconnect', nodes: ['up', 'lp'], zone: 'vehicle' },
    { id: 'meter', kind: 'meter', nodes: ['up', 'ln'], zone: 'vehicle', role: 'energy-meter', resistance: '47 kΩ' },
    {
      id: 'link',
      kind: 'capacitor',
      nodes: ['lp', 'ln'],
      zone: 'vehicle',
      capacitance: { nominal: '470 µF', tolerance: 0.2 },
    },
    {
      id: 'discharge-relay',
      kind: 'contact',
      nodes: ['lp', 'dr'],
      zone: 'vehicle',
      rest: 'closed',
      role: 'discharge-relay',
      suppliedBy: 'shutdown-circuit',
      releaseTime: '15 ms',
    },
    {
      id: 'discharge-resistor',
      kind: 'resistor',
      nodes: ['dr', 'ln'],
      zone: 'vehicle',
      role: 'discharge',
      resistance: { nominal: '2k7', tolerance: 0.05 },
    },
    {
      id: 'point-pos',
      kind: 'resistor',
      nodes: ['lp', 'mp'],
      zone: 'vehicle',
      role: 'body-protection',
      resistance: { nominal: '15 kΩ', tolerance: 0.05 },
    },
    {
      id: 'point-neg',
      kind: 'resistor',
      nodes: ['ln', 'mn'],
      zone: 'vehicle',
      role: 'body-protection',
      resistance: { nominal: '15 kΩ', tolerance: 0.05 },
    },
  ],
  measuringPoints: { positive: 'mp', negative: 'mn' },
};

const judged = { circuit: smallCar, ruleset: 'student-ev-2020' };

/** Example bodies by operation. A test sends each of them. */
export const requestExamples: Readonly<Record<string, Readonly<Record<string, { summary: string; value: unknown }>>>> =
  {
    verifyCircuit: {
      smallCar: { summary: 'A small car under one ruleset', value: judged },
      withEventMeter: {
        summary: 'The same with the organiser’s energy meter fitted',
        value: { ...judged, event: { meterResistance: '47 kΩ' } },
      },
      withSensitivities: {
        summary: 'The same, and which parts move the figures most',
        value: { ...judged, sensitivities: true },
      },
      severalRulesets: {
        summary: 'The same under two rulesets at once',
        value: { circuit: smallCar, rulesets: ['student-ev-2020', 'collegiate-ev-2024'] },
      },
    },
    findRuleBreaches: { smallCar: { summary: 'A small car', value: judged } },
    computeLimits: {
      smallCar: { summary: 'A small car', value: judged },
      withStock: {
        summary: 'The same, and which resistors at hand would do',
        value: {
          ...judged,
          stock: [
            { resistance: { nominal: '1k5', tolerance: 0.05 }, power: '100 W', count: 2 },
            { resistance: { nominal: '2k2', tolerance: 0.05 }, power: '200 W' },
          ],
        },
      },
    },
    checkCircuit: { smallCar: { summary: 'A small car', value: { circuit: smallCar } } },
    verifyBatch: {
      twoCars: {
        summary: 'A circuit and a flat row',
        value: [
          { id: 'small-car', circuit: smallCar, ruleset: 'student-ev-2020' },
          { row: exampleRows[0], ruleset: 'student-ev-2020' },
        ],
      },
    },
    drawCircuit: {
      row: { summary: 'A flat row', value: { row: exampleRows[0] } },
      circuit: { summary: 'A circuit', value: { circuit: smallCar } },
    },
    compareCircuits: {
      otherResistor: {
        summary: 'The small car with another pre-charge resistor',
        value: {
          before: smallCar,
          after: {
            ...smallCar,
            elements: smallCar.elements.map((element) =>
              element.id === 'precharge-resistor'
                ? { ...element, resistance: { nominal: '2k2', tolerance: 0.05 } }
                : element,
            ),
          },
          ruleset: 'student-ev-2020',
        },
      },
    },
    computeTransients: {
      rise: {
        summary: 'Link voltage and resistor current of the default sequence',
        value: {
          circuit: smallCar,
          probes: [
            { id: 'link-voltage', voltage: ['lp', 'ln'] },
            { id: 'resistor-current', current: 'precharge-resistor' },
          ],
          duration: '8 s',
          samples: 5,
        },
      },
    },
  };
