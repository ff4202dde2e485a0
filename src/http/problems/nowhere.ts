/** The detail of `not-found` where nothing has the address at all. */
export const nowhere = 'Nothing has this address. GET / names the main addresses, GET /docs shows all.';
