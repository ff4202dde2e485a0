import { createFacts } from '../../facts/create-facts.js';
import type { Facts } from '../../facts/facts.js';
import { lazily } from '../../facts/lazily.js';
import { BoundTooCostly } from '../bound-too-costly.js';
import { type BoundedPart, boundedPart, RANGES } from '../bounded-part.js';
import { closedForm } from '../closed-forms/closed-form.js';
import { type Demand, demandOn, ratioDemand } from '../demand.js';
import { judgeAbove } from '../judgement.js';
import type { Limit, LimitMeta, OneLimit } from '../limit.js';
import { limitOnPart } from '../limit-on-part.js';
import { loadModel } from '../models/load-model.js';
import { prechargeResistors } from '../present-parts.js';
import { readSteadyRatio } from '../read-steady-ratio.js';
import { percentText, quantityText } from '../quantity-text.js';
import { toNominal } from '../to-nominal.js';

const meta: LimitMeta = {
  name: 'precharge-load-resistance-min',
  title: 'Smallest resistance of each thing that loads the link while it charges',
  unit: 'Ω',
  bound: 'min',
  rule: 'precharge-reaches-threshold',
  formula: 'Pre-charge resistance times level over (1 − level), for all loads in parallel.',
  sources: ['Voltage divider, textbook', 'Level: the ruleset'],
};

export const limit: Limit = {
  meta,
  compute: (facts) => {
    if (facts.rise.steadyRatio.reason === 'no-path') return [];
    const meter = facts.conditions.eventMeterResistance;
    const bare = lazily(() => withoutEventMeter(facts));
    return candidates(facts).flatMap((part) => {
      const record = loadLimit(facts, part);
      if (record === undefined) return [];
      if (meter === undefined || record.satisfied !== false) return [record];
      return [withCause(record, loadLimit(bare(), part), meter)];
    });
  },
  fromScalars: closedForm(meta.bound, {
    required: ['prechargeResistance', 'threshold'],
    optional: ['tolerance'],
    formula: 'L = R·p/(1 − p)/(1 − tolerance)',
    compute: ({ prechargeResistance, threshold, tolerance = 0 }) =>
      (prechargeResistance * threshold) / (1 - threshold) / (1 - tolerance),
  }),
};

/** Resistances on the car's side that the rise does not go through. */
function candidates({ circuit, conditions, topology, rise }: Facts): readonly BoundedPart[] {
  const { at, nominal } = rise.steadyRatio;
  return circuit.elements.flatMap((element) => {
    if (element.zone !== 'vehicle' || topology.prechargePath.includes(element.id)) return [];
    if (element.kind !== 'resistor' && element.kind !== 'meter' && element.kind !== 'load') return [];
    // An event's own meter of less resistance stands in the place of the declared one.
    if (element.kind === 'meter' && element.role === 'energy-meter') {
      if ((conditions.eventMeterResistance ?? Infinity) < element.resistance.nominal) return [];
    }
    const part = boundedPart(circuit, conditions, element.id);
    if (part?.unit !== 'Ω' || nominal === null) return [];
    // What has a range and does not show in the extremes has no part in the figure.
    return part.upward + part.downward > 0 && !(part.id in at.min) ? [] : [part];
  });
}

function loadLimit(facts: Facts, part: BoundedPart): OneLimit | undefined {
  const { steadyRatio } = facts.rise;
  const level = facts.conditions.threshold;
  const demand = demandOn({
    facts,
    part,
    end: 'min',
    bound: 'min',
    read: readSteadyRatio,
    measure: ratioDemand(level),
    model: loadModel(facts, part, level),
  });
  const series = prechargeResistors(facts).reduce((sum, { present: ohms, upward }) => sum + ohms * (1 + upward), 0);
  const record = limitOnPart(meta, {
    part,
    judgement: judgeAbove(steadyRatio, level),
    demands: [demand],
    basis: (value) =>
      `All loads in parallel must stay above R·p/(1 − p), ${quantityText((series * level) / (1 - level), 'Ω')} for a pre-charge resistance of ${quantityText(series, 'Ω')} at most and p = ${percentText(level)}; the other loads at their worst leave ${quantityText(value, 'Ω')} for this one${toNominal(part, 'min')}.`,
  });
  // Where it is kept by a value that could be smaller, nothing of what follows can be.
  const mayBeNone = record.outcome === 'no-value-hurts' || record.satisfied === false;
  return mayBeNone && !isLoad(demand) ? undefined : record;
}

function withoutEventMeter({ circuit, conditions }: Facts): Facts {
  const { eventMeterResistance: _, ...others } = conditions;
  return createFacts(circuit, others);
}

/** The record with the event's meter named where that is the real cause: where without it this part would do, or could. */
function withCause(record: OneLimit, bare: OneLimit | undefined, meter: number): OneLimit {
  const does = bare === undefined || bare.satisfied === true;
  const could = record.outcome === 'no-value-helps' && bare?.outcome === 'bound';
  if (!does && !could) return record;
  const otherwise = does ? 'satisfies it as it is' : 'could satisfy it';
  const cause = `The cause is the event’s energy meter of ${quantityText(meter, 'Ω')}: without it this part ${otherwise}.`;
  return { ...record, note: record.note === undefined ? cause : `${record.note} ${cause}` };
}

/** Relative; by less a short circuit in the place of a cable moves the demand, and by far more in the place of a load. */
const HARDLY = 1e-3;

/** False for cables, to capacitors or to loads, and for parts behind an open contact; true also where that costs too much to tell. */
function isLoad(demand: Demand): boolean {
  try {
    const shorted = (demand.atCorner ?? demand.at)(RANGES.Ω.lowest);
    return Math.abs(shorted - demand.present) > HARDLY * shorted;
  } catch (error) {
    if (error instanceof BoundTooCostly) return true;
    throw error;
  }
}
