import type { Crossing } from './crossing.js';

/** Share of the way below which nothing is looked for. */
const QUICKEST = 1e-18;

/**
 * Where between two neighbouring candidates the sign is looked at: the first place that is clear of the level counts. What is quick
 * is over long before the next candidate, and looked for as far down as it may hide.
 */
const PLACES = [0.5, 0.9, 0.1, 0.99, 0.01, 0.999, ...quickPlaces(), 1];

function quickPlaces(): number[] {
  const places: number[] = [];
  for (let place = 3e-3; place > QUICKEST; place /= 3) places.push(place);
  return places;
}

/**
 * Sorts out what a search by intervals leaves: a root that rounding shows twice, a touch that falls on the end of an interval and so
 * looks like a crossing, or like nothing. Candidates between which the signal stays on the level are one; whether it is a
 * crossing or a touch is read off the signs on both of its sides.
 *
 * @param sign of signal − level, 0 on the level
 * @param candidates in order of time; whatever comes near the level is among them
 * @param end s, of the time searched
 * @param staysAtLast whether the signal's limit is the level: then it has not crossed it where it last comes near and stays
 */
export function settleCrossings(
  sign: (time: number) => number,
  candidates: readonly Crossing[],
  end: number,
  staysAtLast: boolean,
): Crossing[] {
  const side = (from: number, to: number): number => {
    if (!(to > from)) return 0;
    for (const place of PLACES) {
      const time = from + (to - from) * place;
      const here = time > from ? sign(time) : 0;
      if (here !== 0) return here;
    }
    return 0;
  };
  const clusters: Crossing[][] = [];
  for (const candidate of candidates) {
    const cluster = clusters.at(-1);
    const before = cluster?.at(-1);
    if (cluster !== undefined && before !== undefined && side(before.time, candidate.time) === 0) {
      cluster.push(candidate);
    } else clusters.push([candidate]);
  }
  return clusters.flatMap((cluster, k): Crossing[] => {
    const first = cluster[0] as Crossing;
    const last = cluster.at(-1) as Crossing;
    // From just past the cluster before (there the place 1 would be the candidate itself, and is not clear of the level).
    const before = first.time === 0 ? 0 : side(clusters[k - 1]?.at(-1)?.time ?? 0, first.time);
    const after = side(last.time, clusters[k + 1]?.[0]?.time ?? end);
    if (after === 0 && staysAtLast && k === clusters.length - 1) return [];
    if (before !== 0 && before === after) return [{ time: (first.time + last.time) / 2, direction: 0 }];
    const direction = Math.sign(
      after !== 0 ? after : before !== 0 ? -before : first.direction,
    ) as Crossing['direction'];
    const time = first.time === 0 ? 0 : (cluster.find((each) => each.direction === direction) ?? first).time;
    return [{ time, direction }];
  });
}
