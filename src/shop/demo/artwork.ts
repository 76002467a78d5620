export interface DemoPiece {
  readonly fileName: string;
  readonly bytes: Uint8Array;
}

export async function demoArtwork(): Promise<DemoPiece[]> {
  return [];
}
