export interface BentGrid {
  readonly channels: number;
  readonly gridPoints: number;
  /** gridPoints^channels × 3 values 0..1, first channel slowest. */
  readonly values: Float32Array;
}

/**
 * How sharply a table bends in each cell: the largest second difference at the cell's corners, over axes and outputs, in
 * whole 8-bit codes, at most 255. A cell is named by its low corner; nodes that are no cell's low corner have 0.
 */
export function cellBends({ channels, gridPoints, values }: BentGrid): Uint8Array {
  const count = gridPoints ** channels;
  const strides = Array.from({ length: channels }, (_, c) => gridPoints ** (channels - 1 - c));
  const bends = new Uint8Array(count);
  for (let node = 0; node < count; node += 1) {
    let most = 0;
    for (const stride of strides) {
      const place = Math.floor(node / stride) % gridPoints;
      if (place === 0 || place === gridPoints - 1) continue;
      for (let at = node * 3; at < node * 3 + 3; at += 1) {
        const bend = values[at - 3 * stride]! - 2 * values[at]! + values[at + 3 * stride]!;
        most = Math.max(most, Math.abs(bend));
      }
    }
    bends[node] = Math.min(255, Math.floor(255 * most));
  }
  const steps = Int32Array.from({ length: 2 ** channels }, (_, corner) =>
    strides.reduce((sum, stride, c) => sum + ((corner >> c) & 1) * stride, 0),
  );
  const ofCells = new Uint8Array(count);
  for (let node = 0; node < count; node += 1) {
    if (strides.some((stride) => Math.floor(node / stride) % gridPoints === gridPoints - 1)) continue;
    let most = 0;
    for (const step of steps) most = Math.max(most, bends[node + step]!);
    ofCells[node] = most;
  }
  return ofCells;
}
