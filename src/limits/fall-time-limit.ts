import type { Conditions } from '../facts/conditions.js';
import type { Facts, Fall, FallVoltage } from '../facts/facts.js';
import type { TimeFigure } from '../facts/figure.js';
import type { BoundedPart } from './bounded-part.js';
import { constantDemand, type Demand, demandOn, timeDemand } from './demand.js';
import { judgeFallTime } from './judge-fall-time.js';
import { judgeAll } from './judgement.js';
import type { LimitMeta, OneLimit } from './limit.js';
import { limitOnPart } from './limit-on-part.js';
import { fallTimeModel } from './models/fall-time-model.js';
import { quantityText } from './quantity-text.js';
import { toNominal } from './to-nominal.js';

interface Watched {
  readonly fall: number;
  readonly voltage: number;
  readonly state: string;
  readonly watched: FallVoltage;
}

type Reading = (watched: FallVoltage) => TimeFigure;

/**
 * The time that has to be kept: by the ruleset's reading of its clock; where that is open by the longer one, which counts the
 * release of the relays too.
 */
function readingOf({ dischargeClock, dischargeClockSettled = true }: Conditions): Reading {
  return dischargeClockSettled || dischargeClock === 'shutdown-opens'
    ? ({ timeToLimit }) => timeToLimit
    : ({ timeToLimitOtherClock }) => timeToLimitOtherClock;
}

/** The largest value of each part with which every voltage, in every state that the ruleset names, still falls in time. */
export function fallTimeLimits(meta: LimitMeta, facts: Facts, parts: readonly BoundedPart[]): readonly OneLimit[] {
  if (parts.length === 0) return [];
  const { dischargeTime, dischargeVoltage } = facts.conditions;
  const timed = readingOf(facts.conditions);
  const all = watchedIn(facts.falls);
  const [slowest] = [...all].sort((a, b) => order(timed(b.watched)) - order(timed(a.watched)));
  if (slowest === undefined) return [];
  const judgement = judgeAll(all.map(({ watched }) => judgeFallTime(watched, facts.conditions)));
  return parts.map((part) => {
    const demand = ({ fall, voltage, watched }: Watched): Demand => {
      const measure = timeDemand(dischargeTime);
      if (!touches(part, watched)) return constantDemand(measure(timed(watched)));
      return demandOn({
        facts,
        part,
        end: 'max',
        bound: 'max',
        read: ({ falls }) => {
          const varied = falls[fall]?.voltages[voltage];
          return varied && timed(varied);
        },
        measure,
        model: fallTimeModel(part, watched, timed(watched), dischargeTime),
      });
    };
    return limitOnPart(meta, {
      part,
      judgement,
      demands: distinct(all, timed).map(demand),
      basis: (value) => {
        const from = facts.openCircuitVoltage.max ?? 0;
        return `A fall from U = ${quantityText(from, 'V')} to u = ${quantityText(dischargeVoltage, 'V')} takes R·C·ln(U/u) = ${quantityText(Math.log(from / dischargeVoltage), '')}·R·C, and ${quantityText(dischargeTime, 's')} are allowed, the release of the relays included. With everything else of this car at its worst (slowest now: ${slowest.watched.id}, ${slowest.state}) that is used up at ${quantityText(value, part.unit)}${toNominal(part, 'max')}.`;
      },
    });
  });
}

/** Only a resistance that a fall goes through moves its time; no part moves the time of a voltage that nothing discharges. */
function touches(part: BoundedPart, { path }: FallVoltage): boolean {
  return part.unit === 'F' ? path.length > 0 : path.includes(part.id);
}

function watchedIn(falls: readonly Fall[]): Watched[] {
  return falls.flatMap(({ required, state, voltages }, fall) =>
    required ? voltages.map((watched, voltage) => ({ fall, voltage, state: state.id, watched })) : [],
  );
}

/** States in which nothing differs for a voltage give the same times to the last bit, by the same path. */
function distinct(all: readonly Watched[], timed: Reading): Watched[] {
  const seen = new Map<string, Watched>();
  for (const each of all) {
    const { path, id } = each.watched;
    const time = timed(each.watched);
    const key = [id, ...path, time.nominal, time.min, time.max, time.stated.min, time.stated.max].join(' ');
    if (!seen.has(key)) seen.set(key, each);
  }
  return [...seen.values()];
}

function order({ reached, max }: TimeFigure): number {
  return reached === 'always' ? (max ?? 0) : Number.MAX_VALUE;
}
