import { describe, expect, test } from 'vitest';
import { cornersPng, form, scratchOf } from '../../tests/shop/fixture.js';
import { json, testServer } from '../../tests/shop/http.js';

const { folder, call, expectProblem } = testServer();

describe('artwork', () => {
  const post = (name: string, bytes: Uint8Array) => call('POST', '/api/artwork', form({ name, bytes }));

  test('a picture comes in, once, and is shown', async () => {
    const png = await cornersPng();
    const answer = await post('C:\\pictures\\..\\corners.png', png);
    expect(answer.statusCode).toBe(201);
    expect(answer.json()).toMatchObject({
      fileName: 'corners.png',
      format: 'png',
      widthPixels: 60,
      heightPixels: 40,
      colourModel: 'rgb',
      hasAlpha: false,
      demo: false,
    });
    expect((await post('other-name.png', png)).json().id).toBe(answer.json().id);
    const { id } = answer.json();
    expect((await call('GET', '/api/artwork')).json().map((one: { id: string }) => one.id)).toEqual([id]);
    const picture = await call('GET', `/api/artwork/${id}/picture?max=32`);
    expect(picture.headers['content-type']).toMatch(/^image\//);
    expect(picture.headers['content-security-policy']).toContain("default-src 'none'");
    expectProblem(await call('GET', `/api/artwork/${id}/picture?max=1000000`), 422, 'request.invalid');
    expectProblem(await call('GET', `/api/artwork/${'0'.repeat(64)}/picture`), 404, 'record.missing');
  });

  test('what is no picture, half a picture, or too large is refused in words and leaves nothing', async () => {
    const before = (await call('GET', '/api/artwork')).json().length;
    expectProblem(
      await post('letter.png', Buffer.from('Dear rowing club, this is a letter.')),
      422,
      'image.wrong-type',
    );
    const noise = await cornersPng(600, 400);
    expectProblem(
      await post('half.png', noise.subarray(0, Math.floor(noise.length / 2))),
      422,
      'image.unreadable',
    );
    const empty = expectProblem(await post('empty.png', new Uint8Array(0)), 422, 'request.invalid');
    expect(empty.detail).toBe('The file “empty.png” is empty.');
    expectProblem(await post('huge.tif', new Uint8Array(3_000_001)), 413, 'image.too-large');
    // 6000 × 6000 black pixels are 36 million in a few kilobytes: a decompression bomb against the set 20 million.
    const bomb = await import('sharp').then(({ default: sharp }) =>
      sharp({ create: { width: 6000, height: 6000, channels: 3, background: '#000' } })
        .png()
        .toBuffer(),
    );
    expectProblem(await post('bomb.png', bomb), 413, 'image.too-large');
    expectProblem(await call('POST', '/api/artwork', form(null)), 422, 'request.invalid');
    expectProblem(
      await call('POST', '/api/artwork', form({ name: 'x.png', bytes: noise, field: 'other' })),
      422,
      'request.invalid',
    );
    expectProblem(await call('POST', '/api/artwork', json({ file: 'x' })), 422, 'request.invalid');
    const cut = form({ name: 'x.png', bytes: noise });
    expectProblem(
      await call('POST', '/api/artwork', { ...cut, payload: cut.payload.subarray(0, 300) }),
      422,
      'request.invalid',
    );
    expect((await call('GET', '/api/artwork')).json().length).toBe(before);
    expect(scratchOf(folder)).toEqual([]);
  });

  test('a text file sent as a scan, and a picture without marks, are answered in words', async () => {
    expectProblem(
      await call(
        'POST',
        '/api/read-back',
        form({ name: 'scan.png', bytes: Buffer.from('no') }, { subject: 'paper' }),
      ),
      422,
      'image.wrong-type',
    );
    const plain = await cornersPng(400, 300);
    expectProblem(
      await call(
        'POST',
        '/api/read-back',
        form({ name: 'scan.png', bytes: plain }, { subject: 'piece' }, true),
      ),
      422,
      'scan.no-marks',
    );
    expectProblem(
      await call('POST', '/api/read-back', form({ name: 'scan.png', bytes: plain }, { subject: 'mug' })),
      422,
      'request.invalid',
    );
    expect(scratchOf(folder)).toEqual([]);
  });
});
