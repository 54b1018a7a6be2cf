"""Writes small photos in every camera orientation, and what Pillow shows of each, for test_photo.cpp.

usage: make_photos.py FOLDER
Each NAME.jpg/.png/.tif comes with NAME.ppm: the picture as Pillow turns it upright.
"""

import io
import pathlib
import sys

from PIL import Image, ImageOps, TiffImagePlugin

folder = pathlib.Path(sys.argv[1])
folder.mkdir(parents=True, exist_ok=True)

# Smooth colours, different in every corner, sides that are no multiple of a JPEG block.
rows, columns = 40, 58
stored = Image.new("RGB", (columns, rows))
stored.putdata([(4 * x, 6 * y, 255 - 2 * x - 3 * y) for y in range(rows) for x in range(columns)])


def exif(orientation):
    data = Image.Exif()
    data[0x0112] = orientation
    data[0x0132] = "2031:05:17 10:11:12"
    return data


def write_with_truth(name, suffix, data):
    (folder / f"{name}{suffix}").write_bytes(data)
    shown = Image.open(io.BytesIO(data))
    if suffix != ".tif":  # Pillow turns a TIFF by itself when loading it
        shown = ImageOps.exif_transpose(shown)
    shown.convert("RGB").save(folder / f"{name}{suffix}.ppm")


def saved(image, **options):
    buffer = io.BytesIO()
    image.save(buffer, **options)
    return buffer.getvalue()


for orientation in range(1, 9):
    tags = TiffImagePlugin.ImageFileDirectory_v2()
    tags[274] = orientation
    write_with_truth(f"turned{orientation}", ".jpg",
                     saved(stored, format="JPEG", quality=95, subsampling=0, exif=exif(orientation)))
    write_with_truth(f"turned{orientation}", ".png", saved(stored, format="PNG", exif=exif(orientation)))
    write_with_truth(f"turned{orientation}", ".tif", saved(stored, format="TIFF", tiffinfo=tags))

write_with_truth("grey", ".png", saved(stored.convert("L"), format="PNG"))
write_with_truth("palette", ".png", saved(stored.convert("P"), format="PNG"))
write_with_truth("clear", ".png", saved(stored.convert("RGBA"), format="PNG"))
write_with_truth("progressive", ".jpg", saved(stored, format="JPEG", quality=95, progressive=True))
write_with_truth("packed", ".tif", saved(stored, format="TIFF", compression="tiff_lzw"))
