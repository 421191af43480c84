using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;

namespace Broodtide.Domain.Tests;

public class EntryTests
{
    private static readonly Entry Whole = new Pen(0).Note("as it was");

    [Fact]
    public void An_entry_is_its_two_byte_strings()
    {
        var read = Entry.Read(Whole.Bytes).Value;
        Assert.Equal(Whole.Envelope, read.Envelope);
        Assert.Equal(Whole.Digest, read.Digest);
        Assert.Equal(Digest.Of(Whole.Bytes.Envelope.Span), read.Digest);
        Assert.Equal(Digest.Of(Whole.Bytes.SaltedBody.Span), read.Envelope.Body);
        Assert.Equal(Whole.Fact, Entry.ReadTrusted(Whole.Bytes, Whole.Digest).Value.Fact);
    }

    [Fact]
    public void An_erased_entry_keeps_its_envelope_and_its_place_in_the_chain()
    {
        var erased = Whole.Erased();
        Assert.False(erased.HasBody);
        Assert.Equal(Whole.Digest, erased.Digest);
        Assert.Equal(new ErasedFact("note written"), erased.Fact);
        Assert.Same(erased, erased.Erased());
        Assert.Equal(Whole.Digest, Entry.Read(erased.Bytes).Value.Digest);
    }

    [Fact]
    public void Another_body_than_the_one_vouched_for_is_refused()
    {
        var body = Whole.Bytes.SaltedBody.ToArray();
        body[^3] ^= 1;
        Assert.Equal("body-not-the-one-vouched-for", Reason(body));
        var salt = Whole.Bytes.SaltedBody.ToArray();
        salt[0] ^= 1;
        Assert.Equal("body-not-the-one-vouched-for", Reason(salt));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(16)]
    [InlineData(EntryBytes.LongestBody + 1)]
    public void A_body_of_a_length_that_cannot_be_is_refused(int length) =>
        Assert.Equal("body-length", Reason(new byte[length]));

    [Theory]
    [InlineData("{ }")]
    [InlineData("{\"b\":1,\"a\":2}")]
    [InlineData("hello")]
    public void A_body_that_is_not_canonical_is_refused(string text) => Refuses(Encoding.UTF8.GetBytes(text));

    [Fact]
    public void A_body_that_is_no_text_is_refused_since_no_line_could_hold_it() =>
        Refuses([0x22, 0xff, 0x22]);

    private static void Refuses(byte[] body)
    {
        byte[] salted = [.. Pen.Salt(1), .. body];
        var envelope = EnvelopeText.Write(Whole.Envelope with { Body = Digest.Of(salted) });
        Assert.Equal("body-not-canonical", Entry.Read(new(envelope, salted)).Reason?.Code);
    }

    private static string? Reason(byte[] body) => Entry.Read(new(Whole.Bytes.Envelope, body)).Reason?.Code;
}
