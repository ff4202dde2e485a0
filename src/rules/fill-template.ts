/**
 * Puts values into the `{placeholders}` of a template.
 * @throws Error where the template names a value that is not there: a mistake in a rule, never in a circuit.
 */
export function fillTemplate(template: string, values: Readonly<Record<string, string | number>>): string {
  return template.replace(/\{(\w+)\}/g, (_, name: string) => {
    const value = values[name];
    if (value === undefined) throw new Error(`the template "${template}" wants a value for {${name}}`);
    return String(value);
  });
}
