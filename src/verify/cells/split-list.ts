import { quoted } from '../../circuit/quoted.js';
import type { Decimal, ParameterFault } from './parameter-fault.js';

/**
 * The items of a list in a query, from a parameter that is repeated or holds several separated by commas or semicolons.
 * With a decimal comma semicolons separate; where there is none, a comma between two digits could be either and is refused.
 */
export function splitList(
  texts: readonly string[],
  decimal: Decimal,
): { readonly items: readonly string[] } | Omit<ParameterFault, 'parameter'> {
  const items: string[] = [];
  for (const text of texts) {
    const bySemicolon = text.split(';');
    if (decimal === 'comma' && bySemicolon.length > 1) {
      items.push(...bySemicolon);
      continue;
    }
    if (decimal === 'comma' && /\d,\d/.test(text)) {
      return {
        code: 'ambiguous-number',
        detail: `${quoted(text)} has a comma that could separate two values or stand before decimals.`,
        accepted: 'values separated by semicolons, or the parameter once for each value',
      };
    }
    items.push(...bySemicolon.flatMap((part) => part.split(',')));
  }
  return { items };
}
