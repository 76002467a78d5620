/** Where the server gives the artwork as an sRGB picture of at most `max` pixels a side. */
export const pictureUrl = (artworkId: string, max: number): string =>
  `/api/artwork/${artworkId}/picture?max=${max}`;
