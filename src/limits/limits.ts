import type { Limit } from './limit.js';
import { limit as constantPowerLoadMax } from './limits/constant-power-load-max.js';
import { limit as dischargePowerRatingMin } from './limits/discharge-power-rating-min.js';
import { limit as dischargeResistanceMaxTime } from './limits/discharge-resistance-max-time.js';
import { limit as dischargeResistanceMinPower } from './limits/discharge-resistance-min-power.js';
import { limit as linkCapacitanceMaxDischarge } from './limits/link-capacitance-max-discharge.js';
import { limit as linkCapacitanceMaxPrecharge } from './limits/link-capacitance-max-precharge.js';
import { limit as measuringPointResistance } from './limits/measuring-point-resistance.js';
import { limit as prechargeLoadResistanceMin } from './limits/precharge-load-resistance-min.js';
import { limit as prechargePowerRatingMin } from './limits/precharge-power-rating-min.js';
import { limit as prechargeResistanceMaxLoads } from './limits/precharge-resistance-max-loads.js';
import { limit as prechargeResistanceMaxSetting } from './limits/precharge-resistance-max-setting.js';
import { limit as prechargeResistanceMaxTime } from './limits/precharge-resistance-max-time.js';
import { limit as prechargeResistanceMinCurrent } from './limits/precharge-resistance-min-current.js';
import { limit as prechargeResistanceMinEnergy } from './limits/precharge-resistance-min-energy.js';
import { limit as prechargeThresholdSettingMin } from './limits/precharge-threshold-setting-min.js';
import { limit as secondContactInrushMax } from './limits/second-contact-inrush-max.js';

/** Every limit, in the order in which they are answered: the rise, then the fall, then the measuring points. */
export const limits: readonly Limit[] = [
  prechargeResistanceMaxLoads,
  prechargeResistanceMaxSetting,
  prechargeResistanceMaxTime,
  prechargeResistanceMinCurrent,
  prechargeResistanceMinEnergy,
  prechargePowerRatingMin,
  prechargeLoadResistanceMin,
  constantPowerLoadMax,
  prechargeThresholdSettingMin,
  linkCapacitanceMaxPrecharge,
  secondContactInrushMax,
  dischargeResistanceMaxTime,
  linkCapacitanceMaxDischarge,
  dischargeResistanceMinPower,
  dischargePowerRatingMin,
  measuringPointResistance,
];
