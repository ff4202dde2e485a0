import { at, type FaultCase, fields, rename, sequence, set, step } from './fault-case.js';

/** Wrong fields, wrong kinds of value, unreadable quantities. */
export const faultsOfForm: readonly FaultCase[] = [
  { what: 'no circuit at all', spoil: () => undefined, instead: null, faults: [['#/circuit', 'wrong-type']] },
  { what: 'a list for a circuit', spoil: () => undefined, instead: [], faults: [['#/circuit', 'wrong-type']] },
  { what: 'an empty object', spoil: () => undefined, instead: {}, faults: [['#/circuit/elements', 'missing-field']] },
  { what: 'no elements', spoil: fields({ elements: [] }), faults: [['#/circuit/elements', 'wrong-length']] },
  {
    what: 'too many elements',
    spoil: (input) => {
      for (let index = input.elements.length; index <= 200; index += 1) {
        input.elements.push({ id: `w${index}`, kind: 'disconnect', nodes: ['lp', `w${index}`], zone: 'vehicle' });
      }
    },
    faults: [['#/circuit/elements', 'wrong-length']],
  },
  {
    what: 'null for an element',
    spoil: (input) => void input.elements.push(null as never),
    faults: [[at(9), 'wrong-type']],
  },
  {
    what: 'text for an element',
    spoil: (input) => void input.elements.push('x' as never),
    faults: [[at(9), 'wrong-type']],
  },
  { what: 'null for a title', spoil: fields({ title: null }), faults: [['#/circuit/title', 'wrong-type']] },
  {
    what: 'a line break in a title',
    spoil: fields({ title: 'a\nb' }),
    faults: [['#/circuit/title', 'unaccepted-form']],
  },
  {
    what: 'true for a number',
    spoil: set('r-dis', { resistance: true }),
    faults: [[at(7, 'resistance'), 'wrong-type']],
  },
  { what: 'text for true', spoil: sequence({ at: 0, release: 'yes' }), faults: [[step(0, 'release'), 'wrong-type']] },
  {
    what: 'a fraction of an attempt',
    spoil: fields({ control: { precharge: { attempts: 1.5 } } }),
    faults: [['#/circuit/control/precharge/attempts', 'wrong-type']],
  },
  {
    what: 'no attempt',
    spoil: fields({ control: { precharge: { attempts: 0 } } }),
    faults: [['#/circuit/control/precharge/attempts', 'out-of-bounds']],
  },
  { what: 'a misspelt optional field', spoil: set('dis', { relase: 1 }), faults: [[at(6, 'relase'), 'unknown-field']] },
  {
    what: 'a misspelt required field, which is one mistake',
    spoil: rename('r-dis', 'resistance', 'resistence'),
    faults: [[at(7, 'resistence'), 'unknown-field']],
  },
  {
    what: 'a misspelt value of a load, which is one mistake',
    spoil: rename('inverter', 'resistance', 'resistanc'),
    faults: [[at(8, 'resistanc'), 'unknown-field']],
  },
  {
    what: 'a misspelt time of a step, which is one mistake',
    spoil: sequence({ aftr: 1 }),
    faults: [[step(0, 'aftr'), 'unknown-field']],
  },
  {
    what: 'a field of another kind',
    spoil: set('r-dis', { capacitance: 1 }),
    faults: [[at(7, 'capacitance'), 'unknown-field']],
  },
  {
    what: 'a key that a pointer must escape',
    spoil: set('r-dis', { 'a/b~c d': 1 }),
    faults: [['#/circuit/elements/7/a~1b~0c%20d', 'unknown-field']],
  },
  {
    what: 'a missing id',
    spoil: rename('r-dis', 'id', 'name'),
    faults: [
      [at(7, 'id'), 'missing-field'],
      [at(7, 'name'), 'unknown-field'],
    ],
  },
  { what: 'an empty id', spoil: set('r-dis', { id: '' }), faults: [[at(7, 'id'), 'wrong-length']] },
  { what: 'a long id', spoil: set('r-dis', { id: 'x'.repeat(65) }), faults: [[at(7, 'id'), 'wrong-length']] },
  {
    what: 'a missing kind',
    spoil: (input) => void input.elements.push({ id: 'x' }),
    faults: [
      [at(9, 'kind'), 'missing-field'],
      [at(9, 'nodes'), 'missing-field'],
      [at(9, 'zone'), 'missing-field'],
    ],
  },
  { what: 'null for a kind', spoil: set('r-dis', { kind: null }), faults: [[at(7, 'kind'), 'wrong-type']] },
  { what: 'an unknown kind', spoil: set('r-dis', { kind: 'resistr' }), faults: [[at(7, 'kind'), 'not-one-of']] },
  {
    what: 'an unknown kind beside faults of the fields that every kind has',
    spoil: set('r-dis', { kind: 'resistr', id: 5, nodes: ['d'], zone: 'car', container: '', label: null, made: 'up' }),
    faults: [
      [at(7, 'container'), 'wrong-length'],
      [at(7, 'id'), 'wrong-type'],
      [at(7, 'kind'), 'not-one-of'],
      [at(7, 'label'), 'wrong-type'],
      [at(7, 'nodes'), 'wrong-length'],
      [at(7, 'zone'), 'not-one-of'],
    ],
  },
  { what: 'an unknown zone', spoil: set('r-dis', { zone: 'car' }), faults: [[at(7, 'zone'), 'not-one-of']] },
  { what: 'null for a word', spoil: set('dis', { rest: null }), faults: [[at(6, 'rest'), 'wrong-type']] },
  { what: 'one node', spoil: set('r-dis', { nodes: ['d'] }), faults: [[at(7, 'nodes'), 'wrong-length']] },
  { what: 'three nodes', spoil: set('r-dis', { nodes: ['d', 'ln', 'x'] }), faults: [[at(7, 'nodes'), 'wrong-length']] },
  {
    what: 'a number for a node',
    spoil: set('r-dis', { nodes: ['d', 5] }),
    faults: [[at(7, 'nodes', '1'), 'wrong-type']],
  },
  {
    what: 'a phase twice',
    spoil: set('inverter', { activeIn: ['drive', 'drive'] }),
    faults: [[at(8, 'activeIn', '1'), 'repeated-item']],
  },
  {
    what: 'an empty quantity',
    spoil: set('r-dis', { resistance: '' }),
    faults: [[at(7, 'resistance'), 'empty-quantity']],
  },
  { what: 'no unit', spoil: set('r-dis', { resistance: '2200' }), faults: [[at(7, 'resistance'), 'unit-missing']] },
  { what: 'a wrong unit', spoil: set('r-dis', { resistance: '47 F' }), faults: [[at(7, 'resistance'), 'wrong-unit']] },
  {
    what: 'an unknown unit',
    spoil: set('r-dis', { resistance: '2 x' }),
    faults: [[at(7, 'resistance'), 'unknown-unit']],
  },
  { what: 'a comma', spoil: set('r-dis', { resistance: '2,2 kΩ' }), faults: [[at(7, 'resistance'), 'decimal-comma']] },
  {
    what: 'no quantity',
    spoil: set('r-dis', { resistance: 'big' }),
    faults: [[at(7, 'resistance'), 'not-a-quantity']],
  },
  {
    what: 'a negative resistance',
    spoil: set('r-dis', { resistance: -1 }),
    faults: [[at(7, 'resistance'), 'out-of-bounds']],
  },
  { what: 'a voltage of zero', spoil: set('pack', { voltage: 0 }), faults: [[at(0, 'voltage'), 'out-of-bounds']] },
  {
    what: 'both forms of a tolerance',
    spoil: set('r-dis', { resistance: { nominal: 1, min: 1, max: 1, tolerance: 0 } }),
    faults: [[at(7, 'resistance', 'tolerance'), 'mixed-tolerance']],
  },
  {
    what: 'a range out of order',
    spoil: set('pack', { voltage: { min: 400, nominal: 360, max: 280 } }),
    faults: [[at(0, 'voltage'), 'unordered-range']],
  },
];
