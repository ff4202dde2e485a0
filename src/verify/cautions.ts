/** What every report, the documentation and the README say. Stable ids, so that a client can show them its own way. */
export const cautions = [
  {
    id: 'high-voltage',
    text: 'This is high voltage and it can kill.',
  },
  {
    id: 'no-permission',
    text: 'A computed result is no permission to touch, energise or compete. The decision is the officials’ and a qualified person’s.',
  },
  {
    id: 'measure',
    text: 'Measure at the measuring points with the right equipment, and follow the local code and the event’s rulebook.',
  },
  {
    id: 'prove-the-meter',
    text: 'Prove the voltmeter on a known source before and after every measurement.',
  },
  {
    id: 'zero-proves-little',
    text: 'A reading of 0 V at the measuring points proves nothing about parts they are not connected to, or after a blown lead or resistor.',
  },
  {
    id: 'capacitors-are-charged',
    text: 'Treat every capacitor as charged until it has been measured dead and shorted.',
  },
  {
    id: 'motor-cables',
    text: 'Motor cables stay live while wheels turn: the AC side is not computed.',
  },
  {
    id: 'charging',
    text: 'Charging is not judged.',
  },
  {
    id: 'as-described',
    text: 'Only the circuit as described is judged. A car that is built otherwise behaves otherwise.',
  },
] as const;
