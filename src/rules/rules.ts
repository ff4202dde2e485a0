import type { Rule } from './rule.js';
import { rule as containerIndicator } from './rules/container-indicator.js';
import { rule as dischargeFailSafe } from './rules/discharge-fail-safe.js';
import { rule as dischargeRating } from './rules/discharge-rating.js';
import { rule as dischargeRepeats } from './rules/discharge-repeats.js';
import { rule as dischargeStaysWithCar } from './rules/discharge-stays-with-car.js';
import { rule as dischargeSurroundings } from './rules/discharge-surroundings.js';
import { rule as dischargeTime } from './rules/discharge-time.js';
import { rule as dischargeUnfused } from './rules/discharge-unfused.js';
import { rule as dischargeWhileCoasting } from './rules/discharge-while-coasting.js';
import { rule as disconnectBreaksThePath } from './rules/disconnect-breaks-the-path.js';
import { rule as eventMeterDiffers } from './rules/event-meter-differs.js';
import { rule as fuseBreakingCurrent } from './rules/fuse-breaking-current.js';
import { rule as guidedAuxiliaries } from './rules/guided-auxiliaries.js';
import { rule as highestVoltage } from './rules/highest-voltage.js';
import { rule as indicatorSeesContacts } from './rules/indicator-sees-contacts.js';
import { rule as indicatorSeesVoltage } from './rules/indicator-sees-voltage.js';
import { rule as isolationBothPoles } from './rules/isolation-both-poles.js';
import { rule as labelsAgree } from './rules/labels-agree.js';
import { rule as mainFuse } from './rules/main-fuse.js';
import { rule as measuringPoints } from './rules/measuring-points.js';
import { rule as measuringPointsSeeTheLink } from './rules/measuring-points-see-the-link.js';
import { rule as noPtc } from './rules/no-ptc.js';
import { rule as noUnswitchedVoltageOutside } from './rules/no-unswitched-voltage-outside.js';
import { rule as permanentLoadRating } from './rules/permanent-load-rating.js';
import { rule as prechargeComparesVoltages } from './rules/precharge-compares-voltages.js';
import { rule as prechargeCompletesInTime } from './rules/precharge-completes-in-time.js';
import { rule as prechargeOrder } from './rules/precharge-order.js';
import { rule as prechargeReachesSetting } from './rules/precharge-reaches-setting.js';
import { rule as prechargeReachesThreshold } from './rules/precharge-reaches-threshold.js';
import { rule as prechargeRelayType } from './rules/precharge-relay-type.js';
import { rule as prechargeResistorRating } from './rules/precharge-resistor-rating.js';
import { rule as prechargeSetting } from './rules/precharge-setting.js';
import { rule as prechargeSupply } from './rules/precharge-supply.js';
import { rule as prechargeThroughRelay } from './rules/precharge-through-relay.js';
import { rule as prechargeUnfused } from './rules/precharge-unfused.js';
import { rule as relayRatings } from './rules/relay-ratings.js';
import { rule as restartHeat } from './rules/restart-heat.js';
import { rule as simplicity } from './rules/simplicity.js';
import { rule as voltageRatings } from './rules/voltage-ratings.js';

/** Every rule, in the order in which findings are answered: the rise, what isolates, the fall, what indicates. */
export const rules: readonly Rule[] = [
  prechargeReachesThreshold,
  eventMeterDiffers,
  prechargeReachesSetting,
  prechargeCompletesInTime,
  prechargeComparesVoltages,
  prechargeSetting,
  prechargeRelayType,
  prechargeThroughRelay,
  prechargeSupply,
  prechargeOrder,
  prechargeResistorRating,
  restartHeat,
  prechargeUnfused,
  noPtc,
  isolationBothPoles,
  noUnswitchedVoltageOutside,
  mainFuse,
  fuseBreakingCurrent,
  relayRatings,
  voltageRatings,
  disconnectBreaksThePath,
  dischargeTime,
  dischargeFailSafe,
  dischargeStaysWithCar,
  dischargeUnfused,
  dischargeRating,
  dischargeRepeats,
  dischargeSurroundings,
  dischargeWhileCoasting,
  permanentLoadRating,
  indicatorSeesContacts,
  indicatorSeesVoltage,
  containerIndicator,
  guidedAuxiliaries,
  measuringPoints,
  measuringPointsSeeTheLink,
  highestVoltage,
  labelsAgree,
  simplicity,
];
