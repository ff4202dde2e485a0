import { readdirSync } from 'node:fs';
import type { RuleCases } from './rule-case.js';

const folder = new URL('./cases/', import.meta.url);

/** Every table of cases, by the name of its file. */
export async function loadCases(): Promise<ReadonlyMap<string, RuleCases>> {
  const tables = new Map<string, RuleCases>();
  for (const file of readdirSync(folder).sort()) {
    const loaded = (await import(new URL(file, folder).href)) as { readonly rows: RuleCases };
    tables.set(file.replace(/\.ts$/, ''), loaded.rows);
  }
  return tables;
}
