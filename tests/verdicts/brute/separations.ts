import type { Book } from '../books.js';
import type { Circuit, Part } from '../wire.js';
import { ofKind } from './wired.js';

/** One way in which the car can be taken apart. */
export interface Separation {
  readonly name: string;
  readonly required: boolean;
  readonly parted: (part: Part) => boolean;
  readonly gone: (part: Part) => boolean;
}

/** Nothing, the disconnect open, each container gone, all of them, and everything apart. */
export function separations(circuit: Circuit, { containerLeaves }: Book): readonly Separation[] {
  const containers = [...new Set(ofKind(circuit, 'accumulator').map((part) => part['container'] as string))];
  const apart = (name: string, required: boolean, disconnected: boolean, leaving: readonly string[]): Separation => {
    const plugged = leaving.filter((container) =>
      ofKind(circuit, 'connector').some((part) => part['separates'] === container),
    );
    return {
      name,
      required,
      parted: (part) =>
        (part.kind === 'disconnect' && disconnected) ||
        (part.kind === 'connector' && plugged.includes(part['separates'] as string)),
      gone: (part) =>
        part.zone === 'container' &&
        leaving.includes((part['container'] as string | undefined) ?? 'main') &&
        !plugged.includes((part['container'] as string | undefined) ?? 'main'),
    };
  };
  return [
    apart('nothing apart', true, false, []),
    apart('disconnect open', true, true, []),
    ...(containers.length > 1
      ? containers.map((container) => apart(`${container} gone`, containerLeaves, false, [container]))
      : []),
    apart('containers gone', containerLeaves, false, containers),
    apart('everything apart', containerLeaves, true, containers),
  ];
}
