// Pictures for counting and measuring: files that were chosen, decoded by the browser to plain pixels. Nothing is kept
// and nothing is sent: a chosen file stays where it lies until the page lets it go.

const chosen = new Map();

// Takes over what a field for files holds, so that the same file can be chosen again; answers how many.
export function take(key, id, add) {
  const field = document.getElementById(id);
  const files = [...(add ? chosen.get(key) ?? [] : []), ...(field?.files ?? [])];
  if (field) field.value = '';
  chosen.set(key, files);
  return files.length;
}

// Bytes of a picture that is kept already stand for a chosen file.
export function put(key, name, bytes) { chosen.set(key, [new File([bytes.slice()], name)]); }

export const letGo = key => { chosen.delete(key); };

export const leave = (key, at) => { chosen.get(key)?.splice(at, 1); };

export const nameOf = (key, at) => chosen.get(key)?.[at]?.name ?? '';

export const sizeOf = (key, at) => chosen.get(key)?.[at]?.size ?? 0;

// The bytes of the file; none if it can no longer be read (taken away, or a permission that ended).
export async function bytesOf(key, at) {
  try {
    return new Uint8Array(await chosen.get(key)[at].arrayBuffer());
  } catch {
    return null;
  }
}

// An address that a picture can show until it is let go.
export const show = (key, at) => URL.createObjectURL(chosen.get(key)[at]);

export const hide = address => URL.revokeObjectURL(address);

// Upright pixels, red, green, blue and one unused, the longer side no longer than wanted; with the size of the whole.
// None if this browser cannot show the file.
export async function decode(key, at, longestSide) {
  let picture;
  try {
    picture = await createImageBitmap(chosen.get(key)[at], { imageOrientation: 'from-image' });
  } catch {
    return null;
  }
  const canvas = document.createElement('canvas');
  try {
    const share = Math.min(1, longestSide / Math.max(picture.width, picture.height));
    canvas.width = Math.max(1, Math.round(picture.width * share));
    canvas.height = Math.max(1, Math.round(picture.height * share));
    const pen = canvas.getContext('2d', { alpha: false, willReadFrequently: true });
    pen.imageSmoothingEnabled = true;
    pen.imageSmoothingQuality = 'high';
    pen.drawImage(picture, 0, 0, canvas.width, canvas.height);
    const { data } = pen.getImageData(0, 0, canvas.width, canvas.height);
    return {
      across: canvas.width, down: canvas.height, wholeAcross: picture.width, wholeDown: picture.height,
      pixels: new Uint8Array(data.buffer, data.byteOffset, data.byteLength),
    };
  } catch {
    return null;
  } finally {
    // Hands the pixels back at once instead of when somebody cleans up.
    picture.close();
    canvas.width = canvas.height = 0;
  }
}

// A short video, decoded here and nowhere else: one element that is sought from time to time.
const clips = new Map();

const heard = (clip, event) => new Promise((done, failed) => {
  clip.addEventListener(event, done, { once: true });
  clip.addEventListener('error', failed, { once: true });
});

// Opens what was chosen as a video; answers seconds, across and down, or none if this browser cannot show it.
export async function openClip(key) {
  closeClip(key);
  const clip = document.createElement('video');
  clip.muted = true;
  clip.playsInline = true;
  clip.preload = 'auto';
  try {
    const ready = heard(clip, 'loadeddata');
    clip.src = URL.createObjectURL(chosen.get(key)[0]);
    clips.set(key, clip);
    await ready;
    // A recording that was not closed properly does not know how long it is until somebody goes to its end.
    if (!Number.isFinite(clip.duration)) {
      const end = heard(clip, 'seeked');
      clip.currentTime = 1e6;
      await end;
    }
    const seconds = Number.isFinite(clip.duration) ? clip.duration : clip.currentTime;
    if (!(seconds > 0) || !clip.videoWidth) throw new Error();
    return { seconds, across: clip.videoWidth, down: clip.videoHeight };
  } catch {
    closeClip(key);
    return null;
  }
}

export function closeClip(key) {
  const clip = clips.get(key);
  if (clip) {
    URL.revokeObjectURL(clip.src);
    clip.removeAttribute('src');
    clip.load();
    clips.delete(key);
  }
}

// The frame at a time, as decode hands out pictures; none if it cannot be had.
export async function clipFrame(key, seconds, longestSide) {
  const clip = clips.get(key);
  if (!clip) return null;
  const canvas = document.createElement('canvas');
  try {
    const there = heard(clip, 'seeked');
    clip.currentTime = seconds;
    await there;
    const share = Math.min(1, longestSide / Math.max(clip.videoWidth, clip.videoHeight));
    canvas.width = Math.max(1, Math.round(clip.videoWidth * share));
    canvas.height = Math.max(1, Math.round(clip.videoHeight * share));
    const pen = canvas.getContext('2d', { alpha: false, willReadFrequently: true });
    pen.imageSmoothingQuality = 'high';
    pen.drawImage(clip, 0, 0, canvas.width, canvas.height);
    const { data } = pen.getImageData(0, 0, canvas.width, canvas.height);
    return {
      across: canvas.width, down: canvas.height, wholeAcross: clip.videoWidth, wholeDown: clip.videoHeight,
      pixels: new Uint8Array(data.buffer, data.byteOffset, data.byteLength),
    };
  } catch {
    return null;
  } finally {
    canvas.width = canvas.height = 0;
  }
}

// Pixels as the bytes of a JPEG file.
export async function encode(across, down, pixels) {
  const canvas = document.createElement('canvas');
  try {
    canvas.width = across;
    canvas.height = down;
    const plain = new Uint8ClampedArray(pixels.length);
    plain.set(pixels);
    canvas.getContext('2d', { alpha: false }).putImageData(new ImageData(plain, across, down), 0, 0);
    const file = await new Promise(done => { canvas.toBlob(done, 'image/jpeg', 0.95); });
    return new Uint8Array(await file.arrayBuffer());
  } finally {
    canvas.width = canvas.height = 0;
  }
}

// An address that a picture can show until it is let go.
export const showBytes = jpeg => URL.createObjectURL(new Blob([jpeg.slice()], { type: 'image/jpeg' }));

// Where a tap fell in a drawing, in units of the drawing, and how many of them one pixel of the screen is.
export function placeOf(id, clientX, clientY) {
  const drawing = document.getElementById(id);
  const map = drawing?.getScreenCTM?.()?.inverse();
  if (!map) return [];
  const point = new DOMPoint(clientX, clientY).matrixTransform(map);
  return [point.x, point.y, Math.hypot(map.a, map.b)];
}

// Brings a part of a drawing into sight inside its frame.
export const bringIntoSight = id => document.getElementById(id)?.scrollIntoView({ block: 'nearest', inline: 'nearest' });
