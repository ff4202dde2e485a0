/** V below which a constant-current load is a resistance, so that it never drives its node negative. */
export const CURRENT_LOAD_KNEE = 1;
