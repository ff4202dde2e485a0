import { harmless, type Mistake } from '../mistake.js';
import { about, relay, resistor } from '../parts.js';
import { add, change, join, partOf, remove } from '../wire.js';

const uncut = ['isolation-both-poles', 'no-unswitched-voltage-outside'];

export const isolationMistakes: readonly Mistake[] = [
  {
    id: 'one pole without a relay',
    change: ({ circuit, first }) => join(remove(circuit, first.id), first.cell, first.car),
    violates: uncut,
  },
  {
    id: 'an isolation relay that is a semiconductor',
    change: ({ circuit, first }) =>
      change(circuit, first.id, { construction: 'solid-state', openResistance: about(1e9, 0.2) }),
    violates: ['isolation-both-poles'],
  },
  {
    id: 'a semiconductor that leaks in place of an isolation relay',
    change: ({ circuit, first }) =>
      change(circuit, first.id, { construction: 'solid-state', openResistance: about(20_000, 0.2) }),
    violates: uncut,
  },
  {
    id: 'an isolation relay closed at rest',
    change: ({ circuit, first }) => change(circuit, first.id, { rest: 'closed' }),
    violates: uncut,
  },
  {
    id: 'an isolation relay outside its container',
    change: ({ circuit, first }) => change(circuit, first.id, { zone: 'vehicle', container: undefined }),
    violates: uncut,
  },
  {
    id: 'a contact for other purposes in place of an isolation relay',
    change: ({ circuit, first }) => change(circuit, first.id, { role: 'other' }),
    violates: ['isolation-both-poles'],
  },
  {
    id: 'a snubber inside an isolation relay',
    change: ({ circuit, first }) => change(circuit, first.id, { openResistance: about(10_000, 0.1) }),
    violates: ['no-unswitched-voltage-outside'],
  },
  {
    id: 'a snubber across the relay that closes last',
    change: ({ circuit, last }) => {
      const { nodes, container } = partOf(circuit, last[0]!);
      const snubber = resistor('snubber', 'other', [nodes[0], nodes[1]], 10_000, 50);
      return add(circuit, { ...snubber, zone: 'container', container });
    },
    // It also charges the link past the pre-charge relay.
    violates: [...uncut, 'precharge-through-relay'],
  },
  {
    id: 'a snubber across the other relay',
    change: ({ circuit, first }) => {
      const { nodes, container } = partOf(circuit, first.id);
      const snubber = resistor('snubber', 'other', [nodes[0], nodes[1]], 10_000, 50);
      return add(circuit, { ...snubber, zone: 'container', container });
    },
    violates: uncut,
  },
  {
    id: 'the pre-charge relay and its resistor outside',
    change: ({ circuit, resistor: place }) => {
      if (place === 'vehicle') return undefined;
      const outside = { zone: 'vehicle', container: undefined };
      return change(change(circuit, 'k-pre', outside), 'r-pre', outside);
    },
    violates: uncut,
  },
  {
    id: 'the pre-charge resistor outside, ahead of its relay',
    change: ({ circuit, branch, resistor: place }) => {
      if (place === 'vehicle') return undefined;
      const ahead = change(circuit, 'r-pre', { nodes: [branch.from, 'pr'], zone: 'vehicle', container: undefined });
      return change(ahead, 'k-pre', { nodes: ['pr', branch.to] });
    },
    violates: uncut,
  },
  {
    id: 'a sense lead outside without a resistor',
    change: ({ circuit, containers }) =>
      containers === 'one' ? change(circuit, 'pack-sense', { zone: 'vehicle', container: undefined }) : undefined,
    violates: uncut,
  },
  {
    id: 'a sense lead outside behind too small a resistor',
    change: ({ circuit, containers, volts }) => {
      if (containers !== 'one') return undefined;
      const lead = (id: string, from: string, to: string) => ({
        ...resistor(id, 'sense', [from, to], 300 * volts, 5),
        zone: 'container' as const,
        container: 'main',
      });
      // 300 Ω/V, and 500 Ω/V are wanted (EV 1.2.1).
      const led = change(circuit, 'pack-sense', { nodes: ['sp', 'sn'], zone: 'vehicle', container: undefined });
      return add(led, lead('sense-pos', 'f', 'sp'), lead('sense-neg', 'bn', 'sn'));
    },
    violates: uncut,
  },
  {
    id: 'a sense lead whose resistor sits outside',
    change: ({ circuit, containers }) => {
      if (containers !== 'one') return undefined;
      const led = change(circuit, 'pack-sense', { nodes: ['sp', 'bn'] });
      return add(led, resistor('sense-pos', 'sense', ['f', 'sp'], 1e6, 5));
    },
    violates: uncut,
  },
  {
    id: 'a semiconductor for pre-charge relay',
    change: ({ circuit }) => change(circuit, 'k-pre', { construction: 'solid-state', openResistance: about(1e9, 0.2) }),
    violates: ['precharge-relay-type', 'isolation-both-poles'],
  },
  {
    id: 'a pre-charge relay closed at rest',
    change: ({ circuit }) => change(circuit, 'k-pre', { rest: 'closed' }),
    violates: ['precharge-relay-type', ...uncut],
  },
  {
    id: 'a way round the pre-charge relay',
    change: ({ circuit }) => {
      const { nodes, container } = partOf(circuit, 'k-pre');
      const bypass = resistor('bypass', 'other', [nodes[0], nodes[1]], 2200, 100);
      return add(circuit, { ...bypass, zone: 'container', container });
    },
    violates: ['precharge-through-relay', ...uncut],
  },
  {
    id: 'the pre-charge relay with a supply of its own',
    change: ({ circuit }) => change(circuit, 'k-pre', { suppliedBy: 'independent' }),
    violates: ['precharge-supply'],
  },
  {
    id: 'an isolation relay with a supply of its own',
    change: ({ circuit, first }) => change(circuit, first.id, { suppliedBy: 'independent' }),
    violates: ['precharge-supply'],
  },
  {
    id: 'the disconnect bypassed by a cable',
    change: ({ circuit }) => {
      const { nodes } = partOf(circuit, 'hvd');
      return add(circuit, resistor('cable-past', 'other', [nodes[0], nodes[1]], 0.004, 100));
    },
    violates: ['disconnect-breaks-the-path'],
  },
  {
    id: 'the pre-charge branch past the disconnect',
    change: ({ circuit, resistor: place, pole, disconnect }) =>
      place === 'vehicle' && pole === disconnect
        ? change(circuit, 'r-pre', { nodes: ['prx', pole === 'positive' ? 'lp' : 'ln'] })
        : undefined,
    violates: ['disconnect-breaks-the-path'],
  },
  {
    id: 'a contact that nothing needs',
    change: ({ circuit, stated }) => {
      if (stated) return undefined;
      const { nodes } = partOf(circuit, 'link-sense');
      const led = change(circuit, 'link-sense', { nodes: ['switched', nodes[1]] });
      return add(led, relay('k-sense', 'other', [nodes[0], 'switched'], { zone: 'vehicle' }));
    },
    violates: ['simplicity'],
  },
  {
    id: 'no disconnect',
    change: ({ circuit }) => {
      const { nodes } = partOf(circuit, 'hvd');
      return join(remove(circuit, 'hvd'), nodes[0], nodes[1]);
    },
    violates: [],
    undetermined: ['disconnect-breaks-the-path'],
  },
  {
    id: 'more voltage than the book allows',
    change: ({ circuit, volts, containers }) =>
      containers === 'one' && volts === 600
        ? change(circuit, 'pack', { voltage: { min: 440, nominal: 550, max: 612 } })
        : undefined,
    violates: ['highest-voltage'],
  },
  harmless('sense leads behind enough resistance inside', ({ circuit, containers, volts }) => {
    if (containers !== 'one') return undefined;
    const lead = (id: string, from: string, to: string) => ({
      ...resistor(id, 'sense', [from, to], 1200 * volts, 5),
      zone: 'container' as const,
      container: 'main',
    });
    const led = change(circuit, 'pack-sense', { nodes: ['sp', 'sn'], zone: 'vehicle', container: undefined });
    return add(led, lead('sense-pos', 'f', 'sp'), lead('sense-neg', 'bn', 'sn'));
  }),
  harmless('an isolation relay with a little leakage', ({ circuit, first }) =>
    change(circuit, first.id, { openResistance: about(1e9, 0.2) }),
  ),
  harmless('isolation relays switched by software, fed by the shutdown circuit', ({ circuit, relays }) =>
    relays.reduce((changed, id) => change(changed, id, { suppliedBy: 'controller' }), circuit),
  ),
  harmless('a second relay in one pole', ({ circuit, first, stated }) => {
    if (stated) return undefined;
    const { container, nodes } = partOf(circuit, first.id);
    const second = relay('air-extra', 'isolation-relay', ['between', nodes[1]], { container });
    const split = change(circuit, first.id, { nodes: [nodes[0], 'between'] });
    const indicator = circuit['indicator'] as { readonly watches: readonly string[] };
    return { ...add(split, second), indicator: { ...indicator, watches: [...indicator.watches, 'air-extra'] } };
  }),
  harmless('a disconnect in the other pole as well', ({ circuit, ahead, disconnect, plugs, resistor: place }) => {
    if (!plugs || place === 'vehicle') return undefined;
    const other = disconnect === 'positive' ? ahead[1] : ahead[0];
    const plugged = circuit.elements.filter(({ kind, nodes }) => kind === 'connector' && nodes.includes(other));
    const led = plugged.reduce(
      (changed, { id, nodes }) => change(changed, id, { nodes: [nodes[0], 'hvd-2-in'] }),
      circuit,
    );
    return add(led, {
      id: 'hvd-2',
      kind: 'disconnect',
      nodes: ['hvd-2-in', other],
      zone: 'vehicle',
      resistance: about(0.0002, 0.2),
      ratedVoltage: 1000,
    });
  }),
];
