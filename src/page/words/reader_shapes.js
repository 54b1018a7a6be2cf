/** The signs of two readers held against each other, about 0, 0: a triangle and a diamond, told apart by shape. */
export const reader_shapes = {
  first: [[0, -9], [8, 5], [-8, 5]],
  second: [[0, -7], [7, 0], [0, 7], [-7, 0]],
};

/** Of other readers' saved points, one after the other and then from the first again; none is like one's
 * own round or square marks, nor like a proposal's diamond. */
export const other_shapes = [
  reader_shapes.first,
  [[0, 9], [8, -5], [-8, -5]],
  [[-6, -6], [6, 6], [6, -6], [-6, 6]],
  [[-6, -6], [6, 6], [-6, 6], [6, -6]],
];

/** Of the place that another device has. */
export const clash_shape = [[-7, -7], [7, -7], [7, 7], [-7, 7]];
