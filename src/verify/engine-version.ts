/**
 * The engine's version, stated in every answer's provenance. A figure that moves by more than 1e-9 is a minor version.
 * Equal to the version in package.json; a test compares them, so that this floor reads no file.
 */
export const ENGINE_VERSION = '0.5.0';

/** The wire contract's version: the first part of every path. */
export const CONTRACT_VERSION = 'v1';
