import { loopThroughAccumulators } from './loop-through-accumulators.js';
import { partsBetween } from './parts-between.js';
import { type RiseState, riseConducts } from './rise-conducts.js';
import { waysToTheLink } from './ways-to-the-link.js';
import type { WirePart, Wiring } from './wiring.js';

/**
 * Elements that carry the rise: on a way between the accumulators and the link, and part of a closed loop through both.
 * First those of the loop of least resistance, from the accumulators' positive pole to the link and from there back to
 * the negative pole, then what lies between accumulators, then parallel ways by id. Accumulators are left out. Empty
 * where no loop closes below `below` Ω.
 */
export function prechargePath(wiring: Wiring, state: RiseState, below: number): WirePart[] {
  const conducts = riseConducts(wiring, state, (value) => value.nominal, false);
  const loop = loopThroughAccumulators(wiring, conducts, below);
  if (!loop || !wiring.link) return [];
  const sources = loop.parts.flatMap(({ element }, place) => (element.kind === 'accumulator' ? [place] : []));
  const firstSource = sources[0] ?? loop.parts.length;
  const lastSource = sources.at(-1) ?? loop.parts.length;
  const fromFirst = loop.parts.slice(0, firstSource);
  const fromSecond = loop.parts.slice(lastSource + 1);
  const startsPositive = loop.parts[firstSource]?.a === loop.nodes[firstSource];
  const ordered = startsPositive
    ? [...fromFirst.toReversed(), ...fromSecond.toReversed()]
    : [...fromSecond, ...fromFirst];
  const between = loop.parts.slice(firstSource, lastSource).filter(({ element }) => element.kind !== 'accumulator');

  const ways = new Set(waysToTheLink(wiring, conducts, below));
  const closing = partsBetween(
    wiring,
    wiring.link[0],
    wiring.link[1],
    (part) => {
      if (part.element.kind === 'accumulator') return 0;
      const crossing = part.a.level >= 0 && part.b.level >= 0 && part.a.level !== part.b.level;
      return crossing ? Infinity : conducts(part);
    },
    below,
  );
  return [...new Set([...ordered, ...between, ...closing.filter((part) => ways.has(part))])];
}
