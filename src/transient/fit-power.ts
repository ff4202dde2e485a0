import type { Collocation } from './collocation.js';
import type { Port, PortResponses } from './port-responses.js';
import { powerBalance } from './power-balance.js';

export interface Fitted {
  /** Coefficients of each port's current, the constant first, A. */
  readonly currents: readonly (readonly number[])[];
  /** Largest relative error of a power at the checks. */
  readonly error: number;
}

/**
 * The ports' currents as polynomials in z = e^(−rate·t), each pinned where it agrees with the voltage that all of them leave.
 * @param rate 1/s
 * @returns undefined where at some node there is no voltage at which the powers could be drawn
 */
export function fitPower(
  ports: readonly Port[],
  responses: PortResponses,
  on: Collocation,
  rate: number,
): Fitted | undefined {
  const nodes = on.nodes.map((z) => course(responses, z, rate));
  const voltages = collocated(ports, nodes, on);
  if (voltages === undefined) return undefined;
  const currents = ports.map(({ power }, p) => {
    const values = nodes.map((_, j) => power / (voltages[j * ports.length + p] as number));
    // Only what differs from the start goes through the powers: a constant comes out as one.
    const start = values[0] as number;
    const terms = on.powers.solve(values.map((value) => value - start));
    terms[0] = (terms[0] as number) + start;
    return terms;
  });
  let error = 0;
  for (const z of on.checks) {
    const { idle, added } = course(responses, z, rate);
    ports.forEach(({ power }, p) => {
      let voltage = idle[p] as number;
      currents.forEach((terms, from) => {
        terms.forEach((amperes, k) => {
          voltage += amperes * (added[from]?.[p]?.[k] as number);
        });
      });
      const current = (currents[p] as readonly number[]).reduceRight((sum, amperes) => sum * z + amperes, 0);
      error = Math.max(error, Math.abs((current * voltage) / power - 1));
    });
  }
  return Number.isFinite(error) ? { currents, error } : undefined;
}

/** The ports' voltages at one instant: idle, and what 1 A of each term of each port adds to each, at [from][to][term]. */
interface Course {
  readonly idle: readonly number[];
  readonly added: readonly (readonly (readonly number[])[])[];
}

function course(responses: PortResponses, z: number, rate: number): Course {
  const time = z === 0 ? Infinity : -Math.log(z) / rate;
  const ports = Array.from({ length: responses.count }, (_, p) => p);
  const added = ports.map((from) => ports.map((to) => responses.drivenBy(from, to, time, z, rate)));
  return { idle: responses.idle(time), added };
}

/** V of each port at each node, at [node·ports + port], such that each power is drawn there. */
function collocated(ports: readonly Port[], nodes: readonly Course[], on: Collocation): number[] | undefined {
  const m = ports.length;
  const idle = nodes.flatMap((node) => node.idle);
  const effect = nodes.flatMap(({ added }) =>
    ports.map((_, to) => {
      const row = new Array<number>(m * nodes.length).fill(0);
      for (let from = 0; from < m; from += 1) {
        const volts = on.powers.solveTransposed(added[from]?.[to] as readonly number[]);
        for (let j = 0; j < nodes.length; j += 1) row[j * m + from] = volts[j] as number;
      }
      return row;
    }),
  );
  const powers = nodes.flatMap(() => ports.map(({ power }) => power));
  return powerBalance(idle, effect, powers);
}
