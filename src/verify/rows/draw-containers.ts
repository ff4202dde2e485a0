import type { Arrangement } from './arrangements.js';
import { draft, type DraftElement, inside, VEHICLE } from './draft.js';
import type { RowCells } from './row-cells.js';
import type { ContainerWires, Wires } from './wires.js';

/** Accumulators, fuses, isolation relays and plugs, and the pre-charge branch round one of the relays. */
export function drawContainers(cells: RowCells, arrangement: Arrangement, wires: Wires): DraftElement[] {
  return [...wires.containers.flatMap(drawContainer), ...drawPrecharge(cells, arrangement, wires)];
}

function drawContainer({ container, suffix, outside }: ContainerWires): DraftElement[] {
  const node = (name: string): string => `${name}${suffix}`;
  const here = inside(container);
  const relay = { rest: 'open', role: 'isolation-relay' };
  return [
    draft('pack', 'accumulator', node('pack'), [node('bp'), node('bn')], here),
    draft('main-fuse', 'fuse', node('main-fuse'), [node('bp'), node('f')], here),
    draft('isolation-relay', 'contact', node('air-pos'), [node('f'), node('tp')], here, relay),
    draft('isolation-relay', 'contact', node('air-neg'), [node('bn'), node('tn')], here, relay),
    draft('plug', 'connector', node('plug-pos'), [node('tp'), outside[0]], VEHICLE, { separates: container }),
    draft('plug', 'connector', node('plug-neg'), [node('tn'), outside[1]], VEHICLE, { separates: container }),
  ];
}

/**
 * Relay, fuse where there is one, resistor. A part outside the container is reached through a plug of its own, and a
 * resistor outside ends on the car's side of the pole's plug: so are such branches built.
 */
function drawPrecharge(cells: RowCells, arrangement: Arrangement, wires: Wires): DraftElement[] {
  const positive = arrangement.prechargePole === 'positive';
  const home = positive ? wires.containers[0] : wires.containers.at(-1);
  if (home === undefined) return [];
  const node = (name: string): string => `${name}${home.suffix}`;
  const relayOutside = cells.text('precharge_relay_place') === 'vehicle';
  const resistorOutside = cells.text('precharge_resistor_place') === 'vehicle';
  const here = inside(home.container);
  const place = (outside: boolean) => (outside ? VEHICLE : here);

  const drawn: DraftElement[] = [];
  let at = positive ? node('f') : node('bn');
  let outside = false;
  const goTo = (wanted: boolean, name: string): void => {
    if (wanted === outside) return;
    const plug = draft('plug', 'connector', name, [at, `${name}-node`], VEHICLE, { separates: home.container });
    drawn.push(plug);
    at = `${name}-node`;
    outside = wanted;
  };
  goTo(relayOutside, 'precharge-plug-out');
  const relay = { rest: 'open', role: 'precharge-relay' };
  drawn.push(draft('precharge-relay', 'contact', 'precharge-relay', [at, 'pr'], place(relayOutside), relay));
  at = 'pr';
  if (cells.yes('precharge_fused') === true) {
    drawn.push(draft('precharge-fuse', 'fuse', 'precharge-fuse', [at, 'pf'], place(relayOutside)));
    at = 'pf';
  }
  goTo(resistorOutside, resistorOutside ? 'precharge-plug-between' : 'precharge-plug-back');
  const inner = positive ? node('tp') : node('tn');
  const end = resistorOutside ? home.outside[positive ? 0 : 1] : inner;
  drawn.push(
    draft('precharge-resistor', 'resistor', 'precharge-resistor', [at, end], place(resistorOutside), {
      role: 'precharge',
    }),
  );
  return drawn;
}
