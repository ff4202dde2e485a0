import { buildCar } from './build-car.js';
import type { Arrangement, Car } from './car.js';

const plain: Omit<Arrangement, 'name'> = {
  volts: 400,
  containers: 'one',
  pole: 'positive',
  resistor: 'container',
  inverters: [{ farads: 400e-6 }],
  discharge: 'relay',
  insulation: false,
  esr: false,
  disconnect: 'positive',
  plugs: true,
  stated: false,
};

/** Invented cars. Together they cover every kind of arrangement at every level of voltage that the books know. */
const arrangements: readonly Arrangement[] = [
  { ...plain, name: 'plain 400 V' },
  {
    ...plain,
    name: 'all options 504 V',
    volts: 504,
    insulation: true,
    esr: true,
    stated: true,
    bleed: true,
    converter: true,
  },
  { ...plain, name: 'negative pre-charge', pole: 'negative', esr: true, stated: true },
  { ...plain, name: 'disconnect in the negative pole', volts: 350, disconnect: 'negative', insulation: true },
  {
    ...plain,
    name: 'negative pre-charge and disconnect 600 V',
    volts: 600,
    pole: 'negative',
    disconnect: 'negative',
    inverters: [{ farads: 300e-6 }],
    esr: true,
  },
  { ...plain, name: 'series containers 588 V', volts: 588, containers: 'series', insulation: true, stated: true },
  { ...plain, name: 'parallel containers', volts: 300, containers: 'parallel', esr: true },
  {
    ...plain,
    name: 'parallel containers, the second charges',
    volts: 320,
    containers: 'parallel',
    pole: 'negative',
    stated: true,
    exchanged: true,
  },
  { ...plain, name: 'two inverters', volts: 480, inverters: [{ farads: 200e-6 }, { farads: 150e-6 }], esr: true },
  {
    ...plain,
    name: 'two inverters on cables',
    volts: 403,
    inverters: [
      { farads: 300e-6, cable: 0.005 },
      { farads: 300e-6, cable: 0.008 },
    ],
    insulation: true,
    esr: true,
    stated: true,
  },
  { ...plain, name: 'permanent discharge 252 V', volts: 252, discharge: 'permanent', stated: true },
  {
    ...plain,
    name: 'permanent discharge 120 V',
    volts: 120,
    inverters: [{ farads: 1000e-6 }],
    discharge: 'permanent',
    insulation: true,
    disconnect: 'negative',
  },
  { ...plain, name: 'resistor outside', resistor: 'vehicle', insulation: true, esr: true },
  {
    ...plain,
    name: 'negative, resistor outside',
    volts: 450,
    pole: 'negative',
    resistor: 'vehicle',
    disconnect: 'negative',
    stated: true,
  },
  { ...plain, name: 'no plugs', volts: 200, plugs: false, inverters: [{ farads: 700e-6 }] },
];

export const cars: readonly Car[] = arrangements.map(buildCar);
