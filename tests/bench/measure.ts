/** Runs both subjects in turn and answers the median seconds of one call of each, and the spread of their ratio. */
export function alternate(first: () => void, second: () => void, rounds = 5, leastSeconds = 0.1) {
  const calls = [callsFor(first, leastSeconds), callsFor(second, leastSeconds)] as const;
  const times: [number, number][] = [];
  for (let round = 0; round < rounds; round += 1) times.push([secondsOf(first, calls[0]), secondsOf(second, calls[1])]);
  const ratios = times.map(([one, other]) => other / one);
  return {
    first: median(times.map(([one]) => one)),
    second: median(times.map(([, other]) => other)),
    ratio: median(ratios),
    least: Math.min(...ratios),
    most: Math.max(...ratios),
  };
}

/** One measurement of each kind a round, in turn, and once before without counting; answers the medians and the ratio's spread. */
export async function alternateRuns(first: () => Promise<number>, second: () => Promise<number>, rounds = 5) {
  await first();
  await second();
  const pairs: [number, number][] = [];
  for (let round = 0; round < rounds; round += 1) {
    // Whoever goes second may find the machine warmer, so they take turns at that too.
    if (round % 2 === 0) pairs.push([await first(), await second()]);
    else {
      const other = await second();
      pairs.push([await first(), other]);
    }
  }
  const ratios = pairs.map(([one, other]) => other / one);
  return {
    first: spreadOf(pairs.map(([one]) => one)),
    second: spreadOf(pairs.map(([, other]) => other)),
    ratio: spreadOf(ratios),
  };
}

export interface Spread {
  readonly median: number;
  readonly least: number;
  readonly most: number;
}

export function spreadOf(values: readonly number[]): Spread {
  return { median: median(values), least: Math.min(...values), most: Math.max(...values) };
}

/** `12.3 (11.9 to 13.0)` */
export function shown({ median: middle, least, most }: Spread, digits = 1): string {
  return `${middle.toFixed(digits)} (${least.toFixed(digits)} to ${most.toFixed(digits)})`;
}

/** `ratio 1.80 (1.71 to 1.85)` */
export function times(ratio: Spread, digits = 2): string {
  return `ratio ${shown(ratio, digits)}`;
}

/** The median seconds of one call. */
export function perCall(subject: () => void, rounds = 5, leastSeconds = 0.1): number {
  const calls = callsFor(subject, leastSeconds);
  return median(Array.from({ length: rounds }, () => secondsOf(subject, calls)));
}

/** s that a subject runs before it is measured, so that compiled code is what is measured. */
const WARM = 1;

function callsFor(subject: () => void, leastSeconds: number): number {
  if (leastSeconds > 0) for (const start = performance.now(); performance.now() - start < WARM * 1e3; ) subject();
  for (let calls = 1; ; calls *= 2) if (secondsOf(subject, calls) * calls >= leastSeconds || calls > 1e6) return calls;
}

function secondsOf(subject: () => void, calls: number): number {
  const start = process.hrtime.bigint();
  for (let call = 0; call < calls; call += 1) subject();
  return Number(process.hrtime.bigint() - start) / 1e9 / calls;
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN;
}
