/** Numbers that bound a request, each with what it counts and in what unit: published as they stand here. */
export type CapacityTable = Readonly<Record<string, readonly [value: number, description: string]>>;

/** The numbers alone, for where they are enforced. */
export function valuesOf<T extends CapacityTable>(table: T): { readonly [K in keyof T]: T[K][0] } {
  // The keys are the table's own, and so is the type of each value.
  return Object.fromEntries(Object.entries(table).map(([name, [value]]) => [name, value])) as {
    readonly [K in keyof T]: T[K][0];
  };
}
