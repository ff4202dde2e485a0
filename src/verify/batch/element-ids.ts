import { capacities } from '../../circuit/capacities.js';
import { isRecord } from '../../circuit/is-record.js';

/** By place: a URI fragment such as `#/circuit/elements/15/thermal`. */
export type ElementIds = Readonly<Record<string, string>>;

const IN_ELEMENT = /^#\/circuit\/elements\/(\d+)(?:\/|$)/;

/** The ids of the elements that places of an item are in, as far as it states any: people know a part by its id, not by its number. */
export function elementIds(item: unknown, places: readonly string[]): ElementIds {
  const circuit = isRecord(item) ? item['circuit'] : undefined;
  const elements: unknown = isRecord(circuit) ? circuit['elements'] : undefined;
  if (!Array.isArray(elements)) return {};
  const idAt = (place: string): string | undefined => {
    const element: unknown = elements[Number(IN_ELEMENT.exec(place)?.[1])];
    const id = isRecord(element) ? element['id'] : undefined;
    return typeof id === 'string' && id !== '' && id.length <= capacities.nameLength ? id : undefined;
  };
  const known = places.flatMap((place) => {
    const id = idAt(place);
    return id === undefined ? [] : [[place, id] as const];
  });
  return Object.fromEntries(known);
}
