import { describe, expect, it } from 'vitest';
import type { Topology } from '../../../src/facts/facts.js';
import { topology } from '../../../src/facts/topology/topology.js';
import {
  accumulator,
  changed,
  circuitOf,
  conditions,
  dischargeBeforeDisconnect,
  dischargeInside,
  exact,
  negative,
  parallel,
  permanent,
  plain,
  plug,
  relay,
  resistor,
  series,
  twoInverters,
  type Wire,
} from './fixtures.js';

const facts = (elements: readonly Wire[], rest?: Record<string, unknown>): Topology =>
  topology(circuitOf(elements, rest), conditions);

/** The same elements with every role left out. */
const unlabelled = (elements: readonly Wire[]): Wire[] =>
  changed(elements, Object.fromEntries(elements.map(({ id }) => [id, { role: undefined }])));

describe('topology', () => {
  const plainFacts = {
    containers: ['main'],
    outermost: { positive: 'bp', negative: 'bn' },
    isolationRelays: ['air-neg', 'air-pos'],
    prechargeRelays: ['k-pre'],
    prechargeResistors: ['r-pre'],
    dischargeResistors: ['r-dis'],
    dischargeContacts: ['k-dis'],
    disconnects: ['hvd'],
    bridgedRelays: ['air-pos'],
    completingRelays: ['air-neg'],
    vehicleCapacitors: ['c-link'],
    prechargePath: ['fuse', 'k-pre', 'r-pre', 'plug-pos', 'hvd', 'plug-neg', 'air-neg'],
    contradictions: [],
  };
  const cases: [string, readonly Wire[], Partial<Topology>][] = [
    ['pre-charge round the positive pole', plain, plainFacts],
    [
      'pre-charge round the negative pole',
      negative,
      {
        ...plainFacts,
        bridgedRelays: ['air-neg'],
        completingRelays: ['air-pos'],
        prechargePath: ['fuse', 'air-pos', 'plug-pos', 'hvd', 'plug-neg', 'r-pre', 'k-pre'],
      },
    ],
    [
      'two containers in series',
      series,
      {
        containers: ['front', 'rear'],
        outermost: { positive: 'ap', negative: 'cn' },
        isolationRelays: ['air-front-neg', 'air-front-pos', 'air-rear-neg', 'air-rear-pos'],
        bridgedRelays: ['air-front-pos'],
        completingRelays: ['air-front-neg', 'air-rear-neg', 'air-rear-pos'],
        vehicleCapacitors: ['c-link'],
        prechargePath: [
          ...['k-pre', 'r-pre', 'plug-front-pos', 'hvd'],
          ...['plug-rear-neg', 'air-rear-neg'],
          ...['air-front-neg', 'plug-front-neg', 'plug-rear-pos', 'air-rear-pos'],
        ],
      },
    ],
    [
      'two containers in parallel',
      parallel,
      {
        containers: ['left', 'right'],
        bridgedRelays: ['air-left-pos', 'air-right-pos'],
        completingRelays: ['air-left-neg', 'air-right-neg'],
        prechargeRelays: ['k-pre-left', 'k-pre-right'],
        prechargeResistors: ['r-pre-left', 'r-pre-right'],
        dischargeResistors: ['r-dis'],
        contradictions: [],
      },
    ],
    ['a second inverter', twoInverters, { ...plainFacts, vehicleCapacitors: ['c-link', 'c-second'] }],
    ['a discharge without a contact', permanent, { dischargeResistors: ['r-dis'], dischargeContacts: [] }],
    ['a discharge inside the container', dischargeInside, plainFacts],
    ['a discharge before the disconnect', dischargeBeforeDisconnect, plainFacts],
  ];

  it.each(cases)('finds who is who with %s', (_, elements, expected) => {
    expect(facts(elements)).toMatchObject(expected);
    expect(facts(elements)).not.toHaveProperty('prechargeBypass');
  });

  it.each(cases)('finds the same without any label with %s', (_, elements) => {
    const known = facts(elements);
    const inferred = facts(
      elements.some(({ id }) => id === 'r-bleed')
        ? changed(unlabelled(elements), { 'r-bleed': { role: 'bleed' } })
        : unlabelled(elements),
    );
    expect({ ...inferred, zoneOfNode: undefined }).toEqual({ ...known, zoneOfNode: undefined });
  });

  it('names the poles of each container', () => {
    expect(facts(series).poles).toEqual([
      { container: 'front', polarity: 'positive', node: 'ap' },
      { container: 'front', polarity: 'negative', node: 'an' },
      { container: 'rear', polarity: 'positive', node: 'cp' },
      { container: 'rear', polarity: 'negative', node: 'cn' },
    ]);
  });

  it('leaves a tap between accumulators out of the poles', () => {
    const split = changed(plain, { acc: { nodes: ['bp', 'tap'] } }, [accumulator('acc2', ['tap', 'bn'])]);
    expect(facts(split).poles.map(({ node }) => node)).toEqual(['bp', 'bn']);
  });

  it('calls a node of the car what any element of the car touches', () => {
    const { zoneOfNode } = facts(plain);
    expect(['bp', 'm', 'hp', 'vp', 'lp', 'ln'].map(zoneOfNode)).toEqual([
      ...['container', 'container', 'container', 'vehicle', 'vehicle', 'vehicle'],
    ]);
  });

  describe('roles', () => {
    it('does not follow swapped labels of the two resistors', () => {
      const swapped = facts(changed(plain, { 'r-pre': { role: 'discharge' }, 'r-dis': { role: 'precharge' } }));
      expect(swapped).toMatchObject({ prechargeResistors: ['r-pre'], dischargeResistors: ['r-dis'] });
      expect(swapped.contradictions).toEqual([
        { element: 'r-dis', detail: 'r-dis is called the pre-charge resistor but carries none of the rise.' },
        { element: 'r-pre', detail: 'r-pre is called a discharge resistor but leads round an isolation relay.' },
      ]);
    });

    it('does not follow swapped labels of isolation and pre-charge relay', () => {
      const swapped = facts(
        changed(plain, { 'air-pos': { role: 'precharge-relay' }, 'k-pre': { role: 'isolation-relay' } }),
      );
      expect(swapped).toMatchObject({ prechargeRelays: ['k-pre'], isolationRelays: ['air-neg', 'air-pos'] });
      expect(swapped.contradictions.map(({ element }) => element)).toEqual(['air-pos', 'k-pre']);
    });

    it('says so when a discharge resistor stands on the wrong side of the isolation relays', () => {
      const wrong = facts(changed(plain, { 'k-dis': undefined, 'r-dis': { nodes: ['bp', 'bn'], zone: 'container' } }));
      expect(wrong.dischargeResistors).toEqual([]);
      expect(wrong.contradictions).toEqual([
        {
          element: 'r-dis',
          detail:
            'r-dis is called a discharge resistor but bridges no capacitor on the car’s side of the isolation relays.',
        },
      ]);
    });

    it('takes no sense lead, bleed resistor or divider for a pre-charge or discharge resistor', () => {
      const more = facts([
        ...unlabelled(plain),
        resistor('r-cell', ['bp', 'bn'], 20000, { zone: 'container' }),
        resistor('r-sense-1', ['bf', 'x'], 1e6, { zone: 'container' }),
        resistor('r-sense-2', ['x', 'hp'], 1e6, { zone: 'container' }),
        resistor('r-div-1', ['lp', 'y'], 200000),
        resistor('r-div-2', ['y', 'ln'], 200000),
        resistor('r-bal', ['lp', 'ln'], 9000, { role: 'bleed' }),
      ]);
      expect(more).toMatchObject({ prechargeResistors: ['r-pre'], dischargeResistors: ['r-dis'] });
    });

    it('does not take a second inverter’s contactor for a discharge contact or an isolation relay', () => {
      expect(facts(changed(twoInverters, { 'k-second': { role: undefined } }))).toMatchObject({
        isolationRelays: ['air-neg', 'air-pos'],
        dischargeContacts: ['k-dis'],
      });
    });

    it('finds both of two discharge contacts in parallel, and both of two resistors in series', () => {
      const more = changed(plain, { 'r-dis': { nodes: ['d', 'e'] } }, [
        relay('k-dis-2', ['lp', 'd'], { role: 'discharge-relay', rest: 'closed', zone: 'vehicle' }),
        resistor('r-dis-2', ['e', 'ln'], 2000),
      ]);
      expect(facts(more)).toMatchObject({
        dischargeContacts: ['k-dis', 'k-dis-2'],
        dischargeResistors: ['r-dis', 'r-dis-2'],
      });
    });

    it('finds a discharge whose contact is open at rest, labelled or not', () => {
      const open = changed(plain, { 'k-dis': { rest: 'open' } });
      expect(facts(open)).toMatchObject({ dischargeResistors: ['r-dis'], dischargeContacts: ['k-dis'] });
      expect(facts(unlabelled(open))).toMatchObject({ dischargeResistors: ['r-dis'], dischargeContacts: ['k-dis'] });
    });

    it('finds an isolation relay that is closed at rest or outside the container', () => {
      const wrong = unlabelled(changed(plain, { 'air-pos': { zone: 'vehicle' }, 'air-neg': { rest: 'closed' } }));
      expect(facts(wrong).isolationRelays).toEqual(['air-neg', 'air-pos']);
    });

    it.each([['precharge'], [undefined]])('follows a pre-charge resistor of far too many ohms, labelled %s', (role) => {
      const mistyped = facts(changed(plain, { 'r-pre': { resistance: exact(470e3), role } }));
      const { contradictions, ...expected } = plainFacts;
      expect(mistyped).toMatchObject({ ...expected, prechargeResistors: ['r-pre'] });
      expect(mistyped.contradictions).toEqual(contradictions);
    });

    it('follows labels whatever the ruleset calls isolated', () => {
      expect(topology(circuitOf(plain), { ...conditions, isolationPerVolt: 0 })).toMatchObject(plainFacts);
    });

    it('infers a resistor without a relay in one container beside a sound pre-charge in the other', () => {
      const wrong = changed(parallel, {
        'k-pre-right': undefined,
        'r-pre-right': { nodes: ['right-p', 'right-hp'], role: undefined },
      });
      expect(facts(wrong).prechargeResistors).toEqual(['r-pre-left', 'r-pre-right']);
      expect(facts(wrong).prechargeBypass?.elements).toContain('r-pre-right');
    });

    it('looks through a current sensor’s shunt', () => {
      const shunt = changed(unlabelled(plain), { 'air-neg': { nodes: ['bs', 'hn'] } }, [
        resistor('shunt', ['bn', 'bs'], 100e-6, { zone: 'container' }),
      ]);
      expect(facts(shunt)).toMatchObject({ isolationRelays: ['air-neg', 'air-pos'], prechargeResistors: ['r-pre'] });
    });
  });

  describe('order of closing', () => {
    it('lets the second of two containers in parallel join at the end when only the first pre-charges', () => {
      const one = facts(changed(parallel, { 'k-pre-right': undefined, 'r-pre-right': undefined }));
      expect(one.bridgedRelays).toContain('air-left-pos');
      expect(one.bridgedRelays.some((id) => id.startsWith('air-right'))).toBe(true);
      expect(one.prechargeBypass).toBeUndefined();
      expect(one.prechargePath).toEqual([
        ...['k-pre-left', 'r-pre-left', 'plug-left-pos', 'hvd', 'plug-left-neg', 'air-left-neg'],
      ]);
    });

    it('bridges a relay between two containers in series', () => {
      const middle = changed(series, { 'k-pre': { nodes: ['an', 'm'] }, 'r-pre': { nodes: ['m', 'fn'] } });
      expect(facts(middle)).toMatchObject({
        bridgedRelays: ['air-front-neg'],
        completingRelays: ['air-front-pos', 'air-rear-neg', 'air-rear-pos'],
      });
      expect(facts(middle).prechargePath).toEqual(expect.arrayContaining(['k-pre', 'r-pre']));
    });

    it('has no last relay without a pre-charge, and the whole way is a bypass', () => {
      const none = facts(changed(plain, { 'k-pre': undefined, 'r-pre': undefined }));
      expect(none).toMatchObject({ bridgedRelays: [], completingRelays: ['air-neg', 'air-pos'] });
      expect(none.prechargeBypass?.elements).toContain('air-pos');
    });
  });

  describe('ways round the pre-charge relay', () => {
    it('reports a resistor without a relay', () => {
      const wrong = facts(changed(plain, { 'k-pre': undefined, 'r-pre': { nodes: ['bf', 'hp'] } }));
      expect(wrong.prechargeResistors).toEqual(['r-pre']);
      expect(wrong.prechargeBypass?.elements).toEqual([
        ...['hvd', 'plug-pos', 'r-pre', 'fuse', 'acc', 'air-neg', 'plug-neg'],
      ]);
      expect(wrong.prechargeBypass?.resistance).toBe(1000);
    });

    it.each([
      ['a voltmeter across the relay below the isolation resistance', 200e3, true],
      ['one above it (500 Ω/V of 420 V is 210 kΩ)', 211e3, false],
    ])('counts %s', (_, ohms, expected) => {
      const meter: Wire = { id: 'v', kind: 'meter', nodes: ['bf', 'hp'], zone: 'container', resistance: exact(ohms) };
      expect(facts([...plain, meter]).prechargeBypass !== undefined).toBe(expected);
    });

    it('counts the leakage of an open contact', () => {
      const leaky = changed(plain, { 'air-pos': { openResistance: exact(100e3) } });
      expect(facts(leaky).prechargeBypass?.elements).toContain('air-pos');
    });

    it('does not take a divider across the link for a way from the accumulator', () => {
      const divided = [...plain, resistor('r-1', ['lp', 'y'], 20000), resistor('r-2', ['y', 'ln'], 20000)];
      expect(facts(divided).prechargeBypass).toBeUndefined();
    });

    it('does not take a bleed resistor across the accumulator for one', () => {
      const bled = [...plain, resistor('r-1', ['bf', 'bn'], 20000, { zone: 'container' })];
      expect(facts(bled).prechargeBypass).toBeUndefined();
    });
  });

  describe('capacitors of the car', () => {
    const capacitor = (id: string, nodes: [string, string], zone: string): Wire => ({
      ...{ id, kind: 'capacitor', nodes, zone, capacitance: exact(1e-6) },
    });
    it('include one in the container on the car’s side of the relays, not one at the pole', () => {
      const more = [
        ...plain,
        capacitor('c-in', ['hp', 'hn'], 'container'),
        capacitor('c-pole', ['bf', 'bn'], 'container'),
      ];
      expect(facts(more).vehicleCapacitors).toEqual(['c-in', 'c-link']);
    });
    it('include those to the chassis, not one from a pole to the chassis', () => {
      const more = [
        ...plain,
        ...[capacitor('y-p', ['lp', 'ch'], 'vehicle'), capacitor('y-n', ['ln', 'ch'], 'vehicle')],
        capacitor('y-pole', ['bf', 'ch'], 'container'),
      ];
      expect(facts(more).vehicleCapacitors).toEqual(['c-link', 'y-n', 'y-p']);
    });
    it('include the link’s where a pole has no relay at all', () => {
      expect(
        facts(
          changed(plain, {
            'air-neg': {
              kind: 'fuse',
              rest: undefined,
              role: undefined,
              construction: undefined,
              suppliedBy: undefined,
            },
          }),
        ).vehicleCapacitors,
      ).toEqual(['c-link']);
    });
    it('include the link’s where the only relay is labelled as something else', () => {
      const odd = changed(plain, { 'air-neg': { role: 'other' }, 'air-pos': { role: 'other' } });
      expect(facts(odd).vehicleCapacitors).toEqual(['c-link']);
    });
  });

  it('knows a circuit without link and one without accumulator outside a container', () => {
    const bare = circuitOf([accumulator('acc', ['bp', 'bn']), relay('k', ['bp', 'hp']), plug('p', ['hp', 'vp'])], {
      link: undefined,
    });
    expect(topology(bare, conditions)).toMatchObject({ prechargePath: [], isolationRelays: [], vehicleCapacitors: [] });
  });
});
