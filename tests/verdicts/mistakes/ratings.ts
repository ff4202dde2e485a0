import { harmless, type Mistake } from '../mistake.js';
import { about, rounded, underrated } from '../parts.js';
import { change, changeIn, join, partOf, remove } from '../wire.js';

/** What is seen and measured, and what the parts are rated for. */
export const ratingMistakes: readonly Mistake[] = [
  {
    id: 'the pre-charge relay is not watched',
    change: ({ circuit, relays }) => ({
      ...circuit,
      indicator: { ...(circuit['indicator'] as object), watches: [...relays] },
    }),
    violates: ['indicator-sees-contacts'],
  },
  {
    id: 'an isolation relay is not watched',
    change: ({ circuit, relays, first }) => ({
      ...circuit,
      indicator: { ...(circuit['indicator'] as object), watches: [...relays.filter((id) => id !== first.id), 'k-pre'] },
    }),
    violates: ['indicator-sees-contacts'],
  },
  {
    id: 'the active light is blind to the link',
    change: ({ circuit, ahead }) => ({
      ...circuit,
      indicator: { ...(circuit['indicator'] as object), senses: [[...ahead]] },
    }),
    violates: ['indicator-sees-voltage'],
  },
  {
    id: 'the container’s indicator senses the cells',
    change: ({ circuit, cells }) => ({ ...circuit, containerIndicator: { senses: [...cells] } }),
    violates: ['container-indicator'],
  },
  {
    id: 'the container’s indicator senses the link',
    change: ({ circuit }) => ({ ...circuit, containerIndicator: { senses: ['lp', 'ln'] } }),
    violates: ['container-indicator'],
  },
  {
    id: 'a plain auxiliary contact',
    change: ({ circuit, first }) => change(circuit, first.id, { auxiliary: 'plain' }),
    violates: ['guided-auxiliaries'],
  },
  {
    id: 'a normally open auxiliary contact',
    change: ({ circuit }) => change(circuit, 'k-pre', { auxiliaryContact: 'normally-open' }),
    violates: ['guided-auxiliaries'],
  },
  {
    id: 'no fuse in a container',
    change: ({ circuit, fuses }) => {
      const id = fuses.at(-1)!;
      const { nodes } = partOf(circuit, id);
      return join(remove(circuit, id), nodes[0], nodes[1]);
    },
    violates: ['main-fuse'],
  },
  {
    id: 'a fuse that cannot break a short circuit of its accumulator',
    // The packs drive about 1.5 kA, their fuses taken off (1 / 0.0008 per ohm, 15 % less resistance).
    change: ({ circuit, fuses }) => change(circuit, fuses.at(-1)!, { breakingCurrent: 600 }),
    violates: ['fuse-breaking-current'],
  },
  harmless('a fuse that can just break a short circuit of its accumulator', ({ circuit, fuses }) =>
    fuses.reduce((changed, id) => change(changed, id, { breakingCurrent: 1500 }), circuit),
  ),
  {
    id: 'a fuse larger than what the relays can break',
    change: ({ circuit, relays }) =>
      relays.reduce((changed, id) => changeIn(changed, id, 'ratings', { breakingCurrent: 150 }), circuit),
    violates: (_, { fuseBelowRelay }) => (fuseBelowRelay ? ['main-fuse'] : []),
  },
  {
    id: 'a fuse that protects nothing',
    change: ({ circuit, fuses }) => change(circuit, fuses[0]!, { ratedCurrent: 2500 }),
    // The relays are asked to carry what the fuse lets through.
    violates: (_, { fuseBelowRelay }) => [...(fuseBelowRelay ? ['main-fuse'] : []), 'relay-ratings'],
  },
  {
    id: 'an isolation relay of too low a voltage',
    change: ({ circuit, first, volts }) => changeIn(circuit, first.id, 'ratings', { dcVoltage: 0.8 * volts }),
    violates: ['relay-ratings'],
  },
  {
    id: 'an isolation relay that carries too little',
    change: ({ circuit, first }) => changeIn(circuit, first.id, 'ratings', { carryingCurrent: 120 }),
    violates: ['relay-ratings'],
  },
  {
    id: 'a last relay that makes too little',
    // The step of 4 % and more drives it through some hundred milliohms: 0.045·U/(0.8 mΩ/V·U·1.15 and some) is 45 A.
    change: ({ circuit, last }) => changeIn(circuit, last[0]!, 'ratings', { makingCurrent: 5 }),
    violates: ['relay-ratings'],
  },
  {
    id: 'a pre-charge relay that breaks too little',
    change: ({ circuit, volts, ohms }) =>
      changeIn(circuit, 'k-pre', 'ratings', { breakingCurrent: rounded((0.5 * volts) / ohms.precharge) }),
    violates: ['relay-ratings'],
  },
  {
    id: 'a link capacitor of too low a voltage',
    change: ({ circuit, volts, inverters }) =>
      inverters.some(({ cable }) => cable !== undefined)
        ? undefined
        : change(circuit, 'c-1', { ratedVoltage: 0.9 * volts }),
    violates: ['voltage-ratings'],
  },
  {
    id: 'an inverter on a cable with a capacitor of too low a voltage',
    change: ({ circuit, volts, inverters }) =>
      inverters.some(({ cable }) => cable !== undefined)
        ? change(circuit, 'c-2', { ratedVoltage: 0.9 * volts })
        : undefined,
    violates: ['voltage-ratings'],
  },
  {
    id: 'a fuse of too low a voltage',
    change: ({ circuit, fuses, volts }) => change(circuit, fuses[0]!, { ratedDcVoltage: 0.6 * volts }),
    violates: ['voltage-ratings'],
  },
  {
    id: 'a disconnect of too low a voltage',
    change: ({ circuit, volts }) => change(circuit, 'hvd', { ratedVoltage: 0.6 * volts }),
    violates: ['voltage-ratings'],
  },
  {
    id: 'a discharge resistor that is called the pre-charge resistor',
    change: ({ circuit }) => change(circuit, 'r-dis', { role: 'precharge' }),
    violates: ['labels-agree'],
  },
  {
    id: 'a pre-charge resistor of too low a voltage',
    change: ({ circuit, volts }) => changeIn(circuit, 'r-pre', 'ratings', { voltage: 0.5 * volts }),
    violates: ['voltage-ratings'],
  },
  {
    id: 'measuring points ahead of the disconnect',
    change: ({ circuit, disconnect, ahead }) =>
      disconnect === 'positive'
        ? change(circuit, 'r-mp', { nodes: [ahead[0], 'mp'] })
        : change(circuit, 'r-mn', { nodes: [ahead[1], 'mn'] }),
    violates: ['measuring-points-see-the-link'],
  },
  {
    id: 'a measuring point on the container’s side of its plug',
    change: ({ circuit, plugs, terminals, disconnect }) => {
      if (!plugs) return undefined;
      return disconnect === 'positive'
        ? change(circuit, 'r-mn', { nodes: [terminals[1], 'mn'] })
        : change(circuit, 'r-mp', { nodes: [terminals[0], 'mp'] });
    },
    violates: ['measuring-points-see-the-link'],
  },
  {
    id: 'body-protection resistors of a wrong value',
    change: ({ circuit }) => change(circuit, 'r-mp', { resistance: about(47_000, 0.01) }),
    violates: ['measuring-points'],
  },
  {
    id: 'a body-protection resistor that stands no short',
    change: ({ circuit }) => underrated(circuit, 'r-mn', 0.25),
    violates: ['measuring-points'],
  },
  {
    id: 'a measuring point without its resistor',
    change: ({ circuit }) => join(remove(circuit, 'r-mp'), 'mp', 'lp'),
    violates: ['measuring-points'],
  },
  {
    id: 'a measuring point that bypasses its resistor',
    change: ({ circuit }) => ({ ...circuit, measuringPoints: { positive: 'lp', negative: 'mn' } }),
    violates: ['measuring-points'],
  },
];
