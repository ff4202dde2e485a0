import { CircuitFault } from '../../circuit/fault.js';
import { findStock, stockTrials } from '../../limits/stock/find-stock.js';
import type { LimitRecord, WindowRecord } from '../../limits/limit-record.js';
import type { StockPart } from '../../limits/stock/stock-part.js';
import type { StockNote, StockUse } from '../../limits/stock/stock-use.js';
import type { Prepared } from '../prepare.js';
import { rulesKept } from './rules-kept.js';
import { stockCapacities } from './stock-capacities.js';

/**
 * What of a stock can stand in the place of each resistor that has a window.
 * @throws CircuitFault (`too-costly`) where that would take more judgements than are allowed
 */
export function stockAnswer(
  { facts, ruleset }: Prepared,
  found: { readonly limits: readonly LimitRecord[]; readonly windows: readonly WindowRecord[] },
  stock: readonly StockPart[],
): { stock: StockUse[]; stockNotes: StockNote[] } {
  const trials = stockTrials(found.windows, stock);
  const most = stockCapacities.stockTrials;
  if (trials > most) {
    const detail = `The stock would take ${trials} judgements of the circuit; the largest number allowed is ${most}.`;
    throw new CircuitFault([
      {
        pointer: '#/stock',
        code: 'too-costly',
        detail,
        accepted: 'fewer parts at hand, or a circuit with fewer resistors',
      },
    ]);
  }
  const served = new Set(found.limits.map(({ rule }) => rule));
  return findStock(facts, { ...found, stock, judge: rulesKept(facts, ruleset, served) });
}
