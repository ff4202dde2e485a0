import type { Socket } from 'node:net';

const slow = new WeakSet<Socket>();

/** Says of a connection that its request arrives no faster than it is worked on, until the returned function is called. */
export function allowSlowArrival(socket: Socket): () => void {
  slow.add(socket);
  return () => void slow.delete(socket);
}

/** True where the time in which a request has to arrive does not hold for this connection now. */
export function arrivesSlowly(socket: Socket): boolean {
  return slow.has(socket);
}
