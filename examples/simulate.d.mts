/** True places of a face's features, mm, as viewed. */
export const places: (
  face: Readonly<
    Record<
      string,
      {
        readonly circle?: number;
        readonly clock?: number;
        readonly x?: number;
        readonly y?: number;
        readonly diameter: number;
      }
    >
  >,
) => Readonly<Record<string, { readonly x: number; readonly y: number; readonly r: number }>>;
/** The job's text: the template's reading lines with values that the true part gives through the stated instruments. */
export const simulate: (template: string, truth: unknown) => string;
