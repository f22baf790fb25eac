/** Half the width of a 95 % interval of a normally distributed error, in standard errors. */
export const HALF_WIDTH_ERRORS = 1.96;
