/**
 * Every code a fault of a request's circuit, sequence or event can carry. A code is never reused for another meaning and
 * never removed within one version of the contract; a test compares this table with what the readers emit.
 */
export const faultCodes = {
  'wrong-type': {
    title: 'Wrong kind of value',
    explanation:
      'The field holds null, a number, text, a truth value, a list or an object where another kind is wanted.',
  },
  'missing-field': {
    title: 'Missing field',
    explanation: 'A required field is not there; the pointer says where it belongs.',
  },
  'unknown-field': {
    title: 'Unknown field',
    explanation:
      'No field of that name exists at this place; input is strict so that a misspelt name is never ignored.',
  },
  'not-one-of': {
    title: 'Not one of the accepted words',
    explanation: 'The field takes one of a fixed list of words, in exactly that spelling.',
  },
  'wrong-length': {
    title: 'Too long or too short',
    explanation: 'A text, list or object holds fewer or more characters or items than are accepted.',
  },
  'repeated-item': {
    title: 'Repeated item',
    explanation: 'A list in which each item may stand once holds one of them twice.',
  },
  'unaccepted-form': {
    title: 'Not an accepted form',
    explanation: 'The value does not match any of the forms that the field accepts.',
  },
  'out-of-bounds': {
    title: 'Out of bounds',
    explanation: 'The number is readable but lies outside the bounds of its quantity, which are in SI units.',
  },
  'empty-quantity': {
    title: 'Empty quantity',
    explanation: 'The text is empty; leave the field out where the value is not stated.',
  },
  'unit-missing': {
    title: 'Unit missing or unclear',
    explanation: 'A number given as text needs its unit, and a lone m is not taken as milli or mega of a resistance.',
  },
  'wrong-unit': {
    title: 'Unit of another quantity',
    explanation: 'The unit is a known one but does not belong to the quantity that the field wants.',
  },
  'unknown-unit': {
    title: 'Unknown unit',
    explanation: 'The text starts with a number but what follows is not a unit that can be read.',
  },
  'decimal-comma': {
    title: 'Comma in a number',
    explanation: 'Numbers take a decimal point and no thousands mark; a comma could be meant as either.',
  },
  'not-a-quantity': {
    title: 'Not a quantity',
    explanation: 'The text cannot be read as a number with a unit, nor as a letter code.',
  },
  'mixed-tolerance': {
    title: 'Two ways to state a tolerance at once',
    explanation: 'A toleranced quantity has either a tolerance or min and max beside its nominal value, not both.',
  },
  'unordered-range': {
    title: 'Range out of order',
    explanation: 'A range must hold min ≤ nominal ≤ max.',
  },
  'unordered-curve': {
    title: 'Curve out of order',
    explanation: 'The temperatures of a resistance curve must rise from point to point.',
  },
  'unordered-derating': {
    title: 'Derating out of order',
    explanation:
      'The temperature at which a resistor may take no power must lie above that up to which it may take all.',
  },
  'stops-above-starts': {
    title: 'Load stops above the voltage at which it starts',
    explanation: 'A load that falls asleep at a higher voltage than it wakes up at would switch without end.',
  },
  'duplicate-id': {
    title: 'Id used twice',
    explanation: 'Every element needs an id of its own.',
  },
  'same-nodes': {
    title: 'Both ends on one node',
    explanation: 'The two nodes of an element or of a pair must differ.',
  },
  'unknown-element': {
    title: 'No such element',
    explanation: 'An id refers to an element that the circuit does not have.',
  },
  'unknown-node': {
    title: 'No such node',
    explanation: 'A name refers to a node that no element touches.',
  },
  'unknown-container': {
    title: 'No such container',
    explanation: 'A plug parts with a container in which no element stands; `separates` is misspelt or was left out.',
  },
  'wrong-kind': {
    title: 'Element of the wrong kind',
    explanation:
      'The element exists but is not of a kind that can stand here: only contacts, connectors and disconnects move.',
  },
  'no-accumulator': {
    title: 'No accumulator',
    explanation: 'A circuit without a source of voltage cannot be verified.',
  },
  'load-value-count': {
    title: 'Not exactly one value for a load',
    explanation: 'A load is described by exactly one of resistance, current and power.',
  },
  'step-time-count': {
    title: 'Not exactly one time for a step',
    explanation: 'A step is timed by exactly one of at, after and when.',
  },
  'opened-and-closed': {
    title: 'Opened and closed in one step',
    explanation: 'A step cannot both open and close the same element.',
  },
  'step-out-of-order': {
    title: 'Step earlier than the one before',
    explanation: 'Steps run in the order given, so none may be set at a time before its predecessor.',
  },
  'relay-split': {
    title: 'Contacts of one relay moved apart',
    explanation:
      'Contacts of the same relay move together, so a step names all of them, each in the direction it moves.',
  },
  'more-faults': {
    title: 'More faults than are listed',
    explanation: 'The list was cut at its published length; correct what is listed and send the request again.',
  },
} as const;

export type FaultCode = keyof typeof faultCodes;
