/** Room for a hand socket on a nut, mm. */
export interface SocketRoom {
  /** Outside diameter of the socket's working end. */
  readonly diameter: number;
  readonly source: string;
}

/** Greatest outside diameter of a hand socket by the nut's width across flats, mm: about 1.25 s + 3, + 4 above 32 mm. */
export const socketRoom = (acrossFlats: number): SocketRoom => ({
  diameter: 1.25 * acrossFlats + (acrossFlats > 32 ? 4 : 3),
  source: 'a straight line through the greatest socket diameters of ISO 2725-1, from memory',
});
