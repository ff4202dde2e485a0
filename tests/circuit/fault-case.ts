import { type CarInput, part } from './car.js';

/** A way to spoil the sound car, and every fault that must come of it, in order. */
export interface FaultCase {
  readonly what: string;
  readonly spoil: (input: CarInput) => void;
  /** Stands in the car's place. */
  readonly instead?: unknown;
  readonly faults: ReadonlyArray<readonly [pointer: string, code: string]>;
}

/** Positions in the car's list: pack 0, air-pos 1, air-neg 2, pre 3, r-pre 4, c-link 5, dis 6, r-dis 7, inverter 8. */
export const at = (index: number, ...keys: string[]) => ['#/circuit/elements', index, ...keys].join('/');
export const step = (index: number, ...keys: Array<string | number>) =>
  ['#/circuit/control/sequence', index, ...keys].join('/');

export const set =
  (id: string, fields: Record<string, unknown>) =>
  (input: CarInput): void => {
    Object.assign(part(input, id), fields);
  };
export const sequence =
  (...steps: unknown[]) =>
  (input: CarInput): void => {
    input['control'] = { sequence: steps };
  };
export const fields =
  (more: Record<string, unknown>) =>
  (input: CarInput): void => {
    Object.assign(input, more);
  };
export const rename =
  (id: string, from: string, to: string) =>
  (input: CarInput): void => {
    const element = part(input, id);
    input.elements[input.elements.indexOf(element)] = Object.fromEntries(
      Object.entries(element).map(([key, value]) => [key === from ? to : key, value]),
    );
  };
export const without =
  (id: string, key: string) =>
  (input: CarInput): void => {
    const element = part(input, id);
    input.elements[input.elements.indexOf(element)] = Object.fromEntries(
      Object.entries(element).filter(([own]) => own !== key),
    );
  };
/** Two contacts of one relay: one opens as the other closes. */
export const oneRelay = (input: CarInput): void => {
  set('pre', { relay: 'k1' })(input);
  set('dis', { relay: 'k1' })(input);
};
