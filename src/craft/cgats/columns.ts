/** What the columns of a table hold: indices into its fields. */
export interface Columns {
  readonly sampleId: number | null;
  readonly sampleName: number | null;
  readonly rgb: readonly number[] | null;
  readonly cmyk: readonly number[] | null;
  readonly lab: readonly number[] | null;
  readonly lch: readonly number[] | null;
  readonly xyz: readonly number[] | null;
  readonly sdLab: readonly number[] | null;
  /** In rising order of wavelength. */
  readonly spectrum: readonly { readonly nm: number; readonly column: number }[];
}

/** Field names of CGATS.17 Annex, ISO 28178 and what CSV headers commonly say (common practice). */
export function findColumns(fields: readonly string[]): Columns {
  const names = fields.map((field) =>
    field
      .toUpperCase()
      .replace(/[\s*.-]+/g, '_')
      .replace(/^_+|_+$/g, ''),
  );
  const one = (...wanted: string[]): number | null => {
    for (const name of wanted) {
      const at = names.indexOf(name);
      if (at >= 0) return at;
    }
    return null;
  };
  const all = (...sets: string[][]): number[] | null => {
    for (const set of sets) {
      const at = set.map((name) => names.indexOf(name));
      if (at.every((column) => column >= 0)) return at;
    }
    return null;
  };
  const run = (...letters: string[]): number[] | null => {
    const at = names.findIndex((_, i) => letters.every((letter, k) => names[i + k] === letter));
    return at < 0 ? null : letters.map((_, k) => at + k);
  };
  return {
    sampleId: one('SAMPLE_ID', 'SAMPLEID', 'ID', 'PATCH', 'SAMPLE'),
    sampleName: one('SAMPLE_NAME', 'SAMPLE_LOC', 'NAME', 'LOCATION'),
    rgb:
      all(['RGB_R', 'RGB_G', 'RGB_B'], ['RED', 'GREEN', 'BLUE'], ['DEVICE_R', 'DEVICE_G', 'DEVICE_B']) ??
      run('R', 'G', 'B'),
    cmyk:
      all(['CMYK_C', 'CMYK_M', 'CMYK_Y', 'CMYK_K'], ['CYAN', 'MAGENTA', 'YELLOW', 'BLACK']) ??
      run('C', 'M', 'Y', 'K'),
    lab: all(['LAB_L', 'LAB_A', 'LAB_B'], ['CIE_L', 'CIE_A', 'CIE_B']) ?? run('L', 'A', 'B'),
    lch:
      all(['LAB_L', 'LAB_C', 'LAB_H'], ['LCH_L', 'LCH_C', 'LCH_H'], ['LCHAB_L', 'LCHAB_C', 'LCHAB_H']) ??
      run('L', 'C', 'H'),
    xyz: all(['XYZ_X', 'XYZ_Y', 'XYZ_Z'], ['CIE_X', 'CIE_Y', 'CIE_Z']) ?? run('X', 'Y', 'Z'),
    sdLab: all(
      ['STDEV_L', 'STDEV_A', 'STDEV_B'],
      ['STDEV_LAB_L', 'STDEV_LAB_A', 'STDEV_LAB_B'],
      ['LAB_L_SD', 'LAB_A_SD', 'LAB_B_SD'],
    ),
    spectrum: spectrumColumns(names),
  };
}

function spectrumColumns(names: readonly string[]): { nm: number; column: number }[] {
  const found = names.flatMap((name, column) => {
    const nm = /^(?:SPECTRAL_NM|SPECTRAL_PCT|SPECTRAL_DEC|SPECTRAL|SPEC|NM|R)?_?(\d{3})_?(?:NM)?$/.exec(
      name,
    )?.[1];
    return nm === undefined || Number(nm) < 300 ? [] : [{ nm: Number(nm), column }];
  });
  found.sort((a, b) => a.nm - b.nm);
  return found.length >= 10 ? found : [];
}
