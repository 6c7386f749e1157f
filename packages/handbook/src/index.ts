/** Rooms fill this index as they are built. */
export const room = 'handbook';
