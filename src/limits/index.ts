export type { ScalarForm, ScalarName, Scalars } from './closed-forms/scalar-form.js';
export { scalarNames } from './closed-forms/scalar-form.js';
export { computeLimits } from './compute-limits.js';
export type { Limit, LimitMeta } from './limit.js';
export type { LimitRecord, WindowRecord } from './limit-record.js';
export { limits } from './limits.js';
