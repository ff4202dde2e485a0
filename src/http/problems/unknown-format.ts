import type { ParameterFault } from '../../verify/cells/parameter-fault.js';

/** The fault of a `format` that a call has no form for. */
export function unknownFormat(format: unknown, formats: Readonly<Record<string, string>>): ParameterFault {
  const accepted = Object.keys(formats).join(', ');
  const detail = `${JSON.stringify(format)} is not a format of this call; there are ${accepted}.`;
  return { parameter: 'format', detail, code: 'unknown-format', accepted };
}
