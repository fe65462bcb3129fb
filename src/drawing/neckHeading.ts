/** What drawings of a neck say of the instrument besides its layout. */
export interface NeckHeading {
  readonly name: string;
  readonly hand: 'right' | 'left';
  readonly nut: { readonly thickness: number };
  readonly fingerboard: { readonly thickness: number };
  readonly neckBlank: { readonly thickness: number; readonly width: number; readonly wood: string } | null;
  readonly neckJoint: {
    readonly fret: number;
    readonly heelDepth: number;
    readonly heelWidthAtTop: number;
    readonly heelWidthAtCap: number;
  } | null;
  readonly headstock: {
    readonly thickness: number;
    readonly veneer: { readonly thickness: number } | null;
    readonly tuners: {
      readonly hole: number;
      readonly post: number;
      readonly bushing: { readonly diameter: number; readonly depth: number } | null;
    };
  } | null;
}
