/** The signs of two readers held against each other, about 0, 0: a triangle and a diamond, told apart by shape. */
export const reader_shapes = {
  first: [[0, -9], [8, 5], [-8, 5]],
  second: [[0, -7], [7, 0], [0, 7], [-7, 0]],
};
