/** Walls may stand this far from where they are meant, mm, to either side, with the thickest tool and with the thinnest. */
export const WALL_TOLERANCE = 0.01;
