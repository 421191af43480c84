using System.Text;
using Broodtide.Domain.Journal;
using CsCheck;

namespace Broodtide.Domain.Tests;

public class DigestTests
{
    // FIPS 180-4 with the example values that NIST publishes beside it (SHA256.pdf; the empty text and the million
    // letters from the SHA test vectors of the validation programme).
    [Theory]
    [InlineData("abc", 1, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData(
        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq",
        1,
        "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1"
    )]
    [InlineData("", 1, "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855")]
    [InlineData("a", 1_000_000, "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0")]
    public void A_digest_is_SHA_256(string text, int times, string expected)
    {
        var bytes = Encoding.UTF8.GetBytes(string.Concat(Enumerable.Repeat(text, times)));
        Assert.Equal(expected, Digest.Of(bytes).ToString());
        Assert.Equal(
            Digest.Of(bytes),
            Digest.Of(bytes.AsSpan(0, bytes.Length / 2), bytes.AsSpan(bytes.Length / 2))
        );
    }

    [Fact]
    public void A_digest_is_read_back_from_its_bytes_and_its_text() =>
        Gen
            .Byte.Array[0, 100]
            .Sample(bytes =>
            {
                var digest = Digest.Of(bytes);
                Assert.Equal(digest, Digest.FromBytes(digest.ToBytes()));
                Assert.True(Digest.TryParse(Encoding.UTF8.GetBytes(digest.ToString()), out var read));
                Assert.Equal(digest, read);
            });

    [Fact]
    public void Digests_are_ordered_as_their_texts() =>
        Gen.Select(Gen.Int, Gen.Int)
            .Sample(
                (a, b) =>
                {
                    var (x, y) = (Digest.Of(BitConverter.GetBytes(a)), Digest.Of(BitConverter.GetBytes(b)));
                    Assert.Equal(
                        Math.Sign(string.CompareOrdinal(x.ToString(), y.ToString())),
                        Math.Sign(x.CompareTo(y))
                    );
                    Assert.Equal(x.CompareTo(y) < 0, x < y);
                    Assert.Equal(x.CompareTo(y) > 0, x > y);
                    Assert.Equal(x.CompareTo(y) <= 0, x <= y);
                    Assert.Equal(x.CompareTo(y) >= 0, x >= y);
                }
            );

    [Theory]
    [InlineData("")]
    [InlineData("ba78")]
    [InlineData("ga7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad")]
    [InlineData("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad00")]
    public void A_text_that_is_no_digest_is_not_read(string text)
    {
        Assert.False(Digest.TryParse(Encoding.UTF8.GetBytes(text), out _));
        Assert.Throws<ArgumentException>(() => Digest.FromBytes(Encoding.UTF8.GetBytes(text)));
    }
}
