import { isConductor } from './is-conductor.js';
import { loopThroughAccumulators } from './loop-through-accumulators.js';
import type { RelayRoles } from './relay-roles.js';
import { riseBound } from './rise-bound.js';
import { type RiseState, riseConducts } from './rise-conducts.js';
import type { WirePart, Wiring } from './wiring.js';

export interface ClosingOrder {
  /** Isolation relays that close last. */
  readonly last: ReadonlySet<WirePart>;
  /** Isolation relays that close with the pre-charge relays. */
  readonly completing: ReadonlySet<WirePart>;
}

/**
 * Which isolation relays close first. Those that a pre-charge branch bridges wait for the threshold. So does any other
 * relay through which the accumulators would reach the link past every pre-charge relay, as long as the rise does not
 * need it: with two containers in parallel and one pre-charge branch, the second container joins at the end, by its
 * relay in the pole that the branch bridges.
 */
export function closingOrder(wiring: Wiring, roles: RelayRoles, isolation: number): ClosingOrder {
  const last = new Set(roles.bridged);
  const completing = (): Set<WirePart> => new Set([...roles.isolationRelays].filter((relay) => !last.has(relay)));
  const rise = (precharging: boolean): RiseState => ({
    closed: new Set([...completing(), ...(precharging ? roles.prechargeRelays : [])]),
    open: new Set([...last, ...(precharging ? [] : roles.prechargeRelays)]),
  });
  const loop = (precharging: boolean) =>
    loopThroughAccumulators(
      wiring,
      riseConducts(wiring, rise(precharging), (value) => value.nominal, false),
      precharging ? riseBound(roles, isolation) : isolation,
    );

  for (let moved = roles.prechargeRelays.size > 0; moved; ) {
    moved = false;
    const levels = new Set([...roles.bridged].map((relay) => relay.a.level));
    const round = loop(false)?.parts ?? [];
    // A way through a resistor is a fault of the circuit, not of the order.
    if (round.some(({ element }) => element.kind !== 'accumulator' && !isConductor(element))) break;
    const candidates = round
      .filter((part) => roles.isolationRelays.has(part) && !last.has(part))
      .sort(
        (left, right) =>
          Number(levels.has(right.a.level)) - Number(levels.has(left.a.level)) || left.index - right.index,
      );
    for (const relay of candidates) {
      last.add(relay);
      if (loop(true)) {
        moved = true;
        break;
      }
      last.delete(relay);
    }
  }
  return { last, completing: completing() };
}
