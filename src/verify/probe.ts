/** A signal that a caller wants to see, resolved: its nodes or its element are known to exist. */
export type Probe =
  | { readonly id: string; readonly quantity: 'voltage'; readonly nodes: readonly [string, string] }
  | { readonly id: string; readonly quantity: 'current' | 'power' | 'temperature'; readonly element: string };

export type ProbeQuantity = Probe['quantity'];

/** SI units of what a probe watches. */
export const probeUnits = { voltage: 'V', current: 'A', power: 'W', temperature: '°C' } as const satisfies Record<
  ProbeQuantity,
  string
>;
