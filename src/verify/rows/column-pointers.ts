import { childPointer } from '../../circuit/pointer.js';
import type { CellTarget } from './column.js';
import { columns } from './columns/columns.js';
import type { Drawing } from './draw-row.js';
import { ROW } from './make-row-fault.js';

/** Where the drawing of a row stands: the pointers of what is found out about it begin so. */
export const DRAWN = '#/circuit';

/** Fields that the drawing fills without a cell of the same meaning, by the column that decides them. */
const DECIDED: ReadonlyArray<CellTarget & { readonly name: string }> = [
  { name: 'measuring_point_resistance', part: 'circuit', field: '/measuringPoints' },
  { name: 'discharge_rest', part: 'discharge-relay', field: '/rest' },
  { name: 'container_indicator', part: 'circuit', field: '/containerIndicators' },
  { name: 'disconnect_place', part: 'circuit', field: '/elements' },
];

const targets: ReadonlyArray<CellTarget & { readonly name: string }> = [
  ...columns.flatMap(({ name, target }) => (target === undefined ? [] : [{ name, ...target }])),
  ...DECIDED,
];

/**
 * Turns a pointer into the drawn circuit into the pointer of the column that fills the field; of several columns the
 * first that is not stated. A pointer that no column is behind stays as it is: it is that of the circuit that
 * POST /v1/circuits answers for the row.
 */
export function columnPointers(drawing: Drawing, stated: (name: string) => boolean): (pointer: string) => string {
  return (pointer) => {
    if (!pointer.startsWith(`${DRAWN}/`)) return pointer;
    const [, index, field] = /^\/elements\/(\d+)(.*)$/s.exec(pointer.slice(DRAWN.length)) ?? [];
    const part = index === undefined ? 'circuit' : drawing.elements[Number(index)]?.part;
    const wanted = index === undefined ? pointer.slice(DRAWN.length) : (field ?? '');
    const near = targets.filter((target) => target.part === part && related(target.field, wanted));
    const meant = near.find(({ name }) => !stated(name)) ?? near[0];
    return meant === undefined ? pointer : childPointer(ROW, meant.name);
  };
}

/** The same field, or one that lies in the other. */
function related(a: string, b: string): boolean {
  return a === b || (b !== '' && a.startsWith(`${b}/`)) || b.startsWith(`${a}/`);
}
