import { failure, type Result, success } from '../../engine/result.ts';

/** The longer side of a kept photo, pixels: a nameplate is still readable, and a hundred photos fit. */
const LONGER_SIDE = 1600;
const QUALITY = 0.8;

/** Bytes of the largest picture that is taken in at all. */
const LARGEST = 40 * 1024 * 1024;

/** A photo made small enough to keep, as JPEG. The problem is in words for the tech. */
export async function reducedPhoto(file: Blob): Promise<Result<Blob, string>> {
  if (file.size > LARGEST) return failure('The picture is larger than 40 MB and was not kept. Take it with a lower resolution.');
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(file);
  } catch {
    return failure('This file cannot be read as a picture and was not kept. Take the photo again, as JPEG or PNG.');
  }
  const scale = Math.min(1, LONGER_SIDE / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  canvas.getContext('2d')?.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  const picture = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', QUALITY));
  return picture ? success(picture) : failure('The picture could not be made smaller and was not kept. Close other apps and take it again.');
}
