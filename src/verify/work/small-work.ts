/**
 * Expected work up to which a request is computed where it arrives: about 50 ms, which others can wait. Most cars stay at a
 * third of it; handing work to another thread and back costs less than one hundredth.
 */
export const SMALL_WORK = 600;
