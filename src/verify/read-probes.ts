import { Type } from '@sinclair/typebox';
import {
  capacities,
  childPointer,
  createValidator,
  type Directory,
  type ElementKind,
  elementFaults,
  type Fault,
  nodePairFaults,
  ref,
} from '../circuit/index.js';
import type { Probe, ProbeQuantity } from './probe.js';
import { ProbeSchema } from './transients-schema.js';

const ProbesSchema = Type.Array(ref(ProbeSchema), { minItems: 1, maxItems: capacities.probes });
const validate = createValidator([ProbeSchema]);
const QUANTITIES: readonly ProbeQuantity[] = ['voltage', 'current', 'power', 'temperature'];

type Given = { readonly id?: unknown } & Readonly<Partial<Record<ProbeQuantity, unknown>>>;

export type ProbesReading = { readonly probes: readonly Probe[] } | { readonly faults: readonly Fault[] };

/**
 * Reads the probes of a request.
 * @param directory of the circuit whose nodes and elements they may name; undefined where there is none: then only their
 * form is judged
 */
export function readProbes(input: unknown, pointer: string, directory: Directory | undefined): ProbesReading {
  const faults = validate(ProbesSchema, input, pointer);
  const given: readonly Given[] = Array.isArray(input) ? input.map(asGiven) : [];
  faults.push(...repeatedIds(given, pointer), ...valueCounts(given, pointer));
  if (directory !== undefined) faults.push(...dangling(given, pointer, directory));
  return faults.length > 0 ? { faults } : { probes: given.map(resolve) };
}

function asGiven(item: unknown): Given {
  return typeof item === 'object' && item !== null ? item : {};
}

function repeatedIds(given: readonly Given[], pointer: string): Fault[] {
  const seen = new Set<unknown>();
  return given.flatMap(({ id }, index) => {
    const repeated = typeof id === 'string' && seen.has(id);
    seen.add(id);
    if (!repeated) return [];
    const detail = `The id \`${id}\` names two probes; each needs one of its own.`;
    return [{ pointer: childPointer(pointer, index, 'id'), code: 'duplicate-id', detail }];
  });
}

function valueCounts(given: readonly Given[], pointer: string): Fault[] {
  return given.flatMap((probe, index) => {
    const count = QUANTITIES.filter((quantity) => probe[quantity] !== undefined).length;
    if (count === 1) return [];
    const detail = `A probe watches exactly one of ${QUANTITIES.join(', ')}; here are ${count === 0 ? 'none' : count}.`;
    return [{ pointer: childPointer(pointer, index), code: 'probe-value-count', detail }];
  });
}

/** Only a resistor has a temperature. */
const KINDS: Readonly<Partial<Record<ProbeQuantity, readonly ElementKind[]>>> = { temperature: ['resistor'] };

function dangling(given: readonly Given[], pointer: string, directory: Directory): Fault[] {
  return given.flatMap((probe, index) =>
    QUANTITIES.flatMap((quantity) => {
      const place = childPointer(pointer, index, quantity);
      if (quantity === 'voltage') return nodePairFaults(probe.voltage, place, directory);
      return elementFaults(probe[quantity], place, directory, KINDS[quantity]);
    }),
  );
}

/** The schema has vouched for the shapes by now. */
function resolve(probe: Given): Probe {
  const id = probe.id as string;
  if (probe.voltage !== undefined) return { id, quantity: 'voltage', nodes: probe.voltage as [string, string] };
  if (probe.current !== undefined) return { id, quantity: 'current', element: probe.current as string };
  if (probe.power !== undefined) return { id, quantity: 'power', element: probe.power as string };
  return { id, quantity: 'temperature', element: probe.temperature as string };
}
