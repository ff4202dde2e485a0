/** A copy of an answer in which every pointer into the drawn circuit is one of a column. Messages stay as they are. */
export function withColumnPointers<T>(value: T, toColumn: (pointer: string) => string): T {
  return replaced(value, toColumn) as T;
}

/** Fields of answers that hold pointers. */
const HOLD_POINTERS = new Set(['missing', 'pointer']);

function replaced(value: unknown, toColumn: (pointer: string) => string): unknown {
  if (Array.isArray(value)) return value.map((item) => replaced(item, toColumn));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(
    Object.entries(value).map(([key, field]) => [
      key,
      HOLD_POINTERS.has(key) ? pointers(field, toColumn) : replaced(field, toColumn),
    ]),
  );
}

function pointers(field: unknown, toColumn: (pointer: string) => string): unknown {
  if (typeof field === 'string') return toColumn(field);
  if (!Array.isArray(field)) return replaced(field, toColumn);
  return [
    ...new Set(field.map((item: unknown) => (typeof item === 'string' ? toColumn(item) : replaced(item, toColumn)))),
  ];
}
