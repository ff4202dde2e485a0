import { describe, expect, it } from 'vitest';
import type { Element, ResolvedCircuit } from '../../../src/circuit/model.js';
import { createFacts } from '../../../src/facts/create-facts.js';
import { accumulator, capacitor, circuitOf, contact, disconnect, exact, meter, resistor } from '../../transient/net.js';
import { conditions } from '../topology/fixtures.js';

const inside = { zone: 'container' } as const;
const relay = { role: 'isolation-relay', suppliedBy: 'shutdown-circuit' } as const;

/** A car whose disconnect stands ahead of the link. */
function sensedOf(linkSense: readonly [string, string], behind: readonly Element[]) {
  const circuit: ResolvedCircuit = {
    ...circuitOf(
      [
        { ...accumulator('pack', 'bp', 'bn', exact(400), exact(0.2)), ...inside },
        { ...contact('air-pos', 'bp', 'tp', relay), ...inside },
        { ...contact('air-neg', 'bn', 'ln', relay), ...inside },
        { ...contact('pre-relay', 'bp', 'x', { ...relay, role: 'precharge-relay' }), ...inside },
        { ...resistor('pre', 'x', 'tp', exact(400), { role: 'precharge' }), ...inside },
        meter('sense', 'tp', 'ln', exact(1e6)),
        disconnect('hvd', 'tp', 'lp'),
        ...behind,
      ],
      ['lp', 'ln'],
    ),
    control: { precharge: { accumulatorSense: ['bp', 'bn'], linkSense } },
  };
  const { senseStates } = createFacts(circuit, conditions);
  return (state: string) =>
    senseStates.filter((each) => each.state === state && each.deceived).map((each) => each.capacitor);
}

const link = capacitor('link', 'lp', 'ln', exact(3e-4));
/** Unequal by their capacitance, as such pairs are; their leaks divide the voltage otherwise. */
const toChassis = [
  capacitor('y-pos', 'lp', 'ch', exact(1e-6)),
  capacitor('y-neg', 'ln', 'ch', exact(1.3e-6)),
  meter('leak-pos', 'lp', 'ch', exact(2e6)),
  meter('leak-neg', 'ln', 'ch', exact(2e6)),
];
const bank = [
  capacitor('upper', 'lp', 'm', exact(5e-4)),
  capacitor('lower', 'm', 'ln', exact(6e-4)),
  meter('balance-upper', 'lp', 'm', exact(1e5)),
  meter('balance-lower', 'm', 'ln', exact(1e5)),
];

describe('a comparison that senses the link', () => {
  it('is not deceived by capacitors that share its voltage with others', () => {
    expect(sensedOf(['lp', 'ln'], [link, ...toChassis])('shutdown')).toEqual([]);
    expect(sensedOf(['lp', 'ln'], bank)('shutdown')).toEqual([]);
  });

  // Shares that the capacitances divide at first and the resistances in the end: from 83 % down to a half, and from a half to 0 and 1.
  it.each([
    ['unequal ones with equal leaks', 470e-9, [meter('leak-pos', 'lp', 'ch', exact(1e6))]],
    ['equal ones with a leak at one pole alone', 100e-9, []],
  ])('is not while the chassis still drifts: %s', (_, farads, leaks) => {
    const drifting = [
      capacitor('y-pos', 'lp', 'ch', exact(100e-9)),
      capacitor('y-neg', 'ln', 'ch', exact(farads)),
      meter('leak-neg', 'ln', 'ch', exact(1e6)),
      ...leaks,
    ];
    expect(sensedOf(['lp', 'ln'], [link, ...drifting])('shutdown')).toEqual([]);
  });

  it('is by one that is charged late through a resistance of its own', () => {
    const far = [resistor('series', 'lp', 'fp', exact(2000)), capacitor('far', 'fp', 'ln', exact(3e-4))];
    expect(sensedOf(['lp', 'ln'], [link, ...far])('shutdown')).toEqual(['far']);
  });
});

describe('a comparison that senses the wrong side of an open disconnect', () => {
  it('is deceived by every capacitor that stands empty behind it', () => {
    const [yPos, yNeg] = ['y-pos', 'y-neg'];
    expect(sensedOf(['tp', 'ln'], [link, ...toChassis])('disconnect-open').sort()).toEqual(['link', yNeg, yPos]);
    expect(sensedOf(['tp', 'ln'], bank)('disconnect-open').sort()).toEqual(['lower', 'upper']);
  });

  it('is not with the disconnect closed', () => {
    expect(sensedOf(['tp', 'ln'], [link, ...toChassis])('shutdown')).toEqual([]);
  });
});
