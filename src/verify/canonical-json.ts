/**
 * The canonical form of a JSON value, RFC 8785: keys by UTF-16 code units, no white space, numbers as ECMAScript writes
 * them. Fields that are `undefined` are left out.
 * @throws RangeError for a number that JSON cannot hold
 */
export function canonicalJson(value: unknown): string {
  if (typeof value === 'number' && !Number.isFinite(value)) throw new RangeError(`not a finite number: ${value}`);
  if (Array.isArray(value)) return `[${value.map((item) => canonicalJson(item ?? null)).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = value as Readonly<Record<string, unknown>>;
  let text = '';
  // Without a comparison of its own a sort goes by UTF-16 code units.
  for (const key of Object.keys(fields).sort()) {
    const field = fields[key];
    if (field !== undefined) text += `${text === '' ? '' : ','}${JSON.stringify(key)}:${canonicalJson(field)}`;
  }
  return `{${text}}`;
}
