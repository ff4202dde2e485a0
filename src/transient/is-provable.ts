import { actAsOne } from './act-as-one.js';
import { contracted } from './contracted.js';
import { graphEdges } from './graph-edges.js';
import type { SignQuestion } from './sign-question.js';
import { plainLoads } from './plain-loads.js';
import { isSeriesParallel } from './series-parallel.js';

/** All sources as one, loads as plain as is asked for, and the graph series-parallel. */
export function isProvable(question: SignQuestion): boolean {
  const { compiled, modes, course, pairs, loads = 'plain', instant, shorts } = question;
  if (loads === 'plain' && !plainLoads(compiled, modes)) return false;
  const graph = graphEdges(compiled, modes).filter(({ kind }) => instant !== 'end' || kind !== 'capacitor');
  const seen = shorts === undefined ? undefined : contracted(compiled, graph, shorts);
  const edges = seen === undefined ? graph : graph.map(seen);
  if (!isSeriesParallel([...edges, ...(seen === undefined ? pairs : pairs.map(seen))])) return false;
  // Of two sources either may win, so the currents' directions would hang on the values.
  const sources = edges.filter(({ kind }) => kind === 'accumulator');
  return course === 'fall' || actAsOne(sources, edges);
}
