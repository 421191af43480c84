using System.Text;
using System.Text.Json.Nodes;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Tests.Kit;
using CsCheck;
using NodaTime;

namespace Broodtide.Domain.Tests;

public class EnvelopeTests
{
    private static readonly Entry Whole = Second();

    [Fact]
    public void An_envelope_is_read_back_as_it_was_written()
    {
        var envelope = Whole.Envelope with
        {
            Author = new Author("broodtide", "0.1.0"),
            Written = Instant.FromUtc(2026, 3, 1, 21, 5) + Duration.FromNanoseconds(120_000_000),
            Correction = new Correction(CorrectionKind.Replaces, new EntryId(Pen.Uuid(7))),
        };
        Assert.Equal(envelope, EnvelopeText.Read(EnvelopeText.Write(envelope)).Value);
        Assert.True(envelope.Author.IsSoftware);
        Assert.False(Whole.Envelope.Author.IsSoftware);
    }

    [Fact]
    public void Members_from_later_are_passed_over()
    {
        var later = Edited(json =>
        {
            json["mood"] = new JsonObject { ["of"] = new JsonArray("day", 1, null) };
            json["author"]!["pronoun"] = "she";
            json["written"]!["weekday"] = 7;
        });
        Assert.Equal(Whole.Envelope, EnvelopeText.Read(later).Value);
    }

    public static TheoryData<string, string> Missing() =>
        new()
        {
            { "id", "id" },
            { "replica", "replica" },
            { "seq", "seq" },
            { "author", "author" },
            { "written", "written" },
            { "happened", "happened" },
            { "kind", "kind" },
            { "version", "version" },
            { "body", "body" },
            { "previous", "previous" },
        };

    [Theory]
    [MemberData(nameof(Missing))]
    public void A_missing_member_is_named(string member, string named) =>
        Refuses(Edited(json => json.Remove(member)), named);

    [Theory]
    [InlineData("id", "null")]
    [InlineData("id", "\"no uuid\"")]
    [InlineData("id", "7")]
    [InlineData("replica", "\"\"")]
    [InlineData("seq", "0")]
    [InlineData("seq", "-1")]
    [InlineData("seq", "1.5")]
    [InlineData("seq", "\"2\"")]
    [InlineData("seq", "9223372036854775808")]
    [InlineData("version", "0")]
    [InlineData("version", "2147483648")]
    [InlineData("version", "null")]
    [InlineData("kind", "\"\"")]
    [InlineData("kind", "12")]
    [InlineData("kind", "\"01234567890123456789012345678901234567890123456789012345678901234\"")]
    [InlineData("happened", "\"2026-03-01T21:05:00Z\"")]
    [InlineData("happened", "[]")]
    [InlineData("happened", "[\"2026-03-01T21:05:00Z\"]")]
    [InlineData("happened", "[\"2026-03-01T21:05:00Z\",\"2026-03-01T21:05:00Z\",\"2026-03-01T21:05:00Z\"]")]
    [InlineData("happened", "[\"2026-03-02T00:00:00Z\",\"2026-03-01T00:00:00Z\"]")]
    [InlineData("happened", "[\"2026-02-30T00:00:00Z\",\"2026-03-01T00:00:00Z\"]")]
    [InlineData("happened", "[\"2026-03-01T00:00:00+01:00\",\"2026-03-01T00:00:00+01:00\"]")]
    [InlineData("happened", "{}")]
    [InlineData("author", "\"Ada\"")]
    [InlineData("author", "{}")]
    [InlineData("author", "{\"name\":null}")]
    [InlineData("author", "{\"name\":\"Ada\",\"version\":1}")]
    [InlineData("written", "\"2026-03-01T21:05:00Z\"")]
    [InlineData("written", "{\"at\":\"2026-03-01T21:05:00Z\"}")]
    [InlineData("written", "{\"zone\":\"Europe/Berlin\"}")]
    [InlineData("written", "{\"at\":\"yesterday\",\"zone\":\"Europe/Berlin\"}")]
    [InlineData("written", "{\"at\":\"2026-03-01T21:05:00Z\",\"zone\":1}")]
    [InlineData("body", "\"\"")]
    [InlineData("body", "\"ba78\"")]
    [InlineData("previous", "null")]
    [InlineData("previous", "\"ba78\"")]
    [InlineData("replaces", "\"x\"")]
    [InlineData("retracts", "null")]
    [InlineData("erases", "{}")]
    public void A_member_of_the_wrong_sort_is_named(string member, string value) =>
        Refuses(Edited(json => json[member] = JsonNode.Parse(value)), member);

    [Fact]
    public void The_first_entry_has_no_previous() => Refuses(Edited(json => json["seq"] = 1), "previous");

    [Fact]
    public void An_entry_does_one_thing_to_one_other() =>
        Refuses(
            Edited(json =>
            {
                json["replaces"] = Pen.Uuid(1).ToString();
                json["retracts"] = Pen.Uuid(2).ToString();
            }),
            "retracts"
        );

    [Theory]
    [InlineData("")]
    [InlineData("{")]
    [InlineData("{\"id\":")]
    [InlineData("{}{}")]
    [InlineData("{} x")]
    [InlineData("not json")]
    [InlineData("{\"id\":\"0195557c-0000-7000-8000-000000000001\",}")]
    public void What_is_no_JSON_says_so(string text) =>
        Assert.Contains(
            EnvelopeText.Read(Encoding.UTF8.GetBytes(text)).Reason!.Code,
            new[] { "envelope-not-json", "envelope-member-wrong" }
        );

    [Theory]
    [InlineData("[]")]
    [InlineData("null")]
    [InlineData("\"x\"")]
    public void What_is_no_object_says_so(string text) => Refuses(Encoding.UTF8.GetBytes(text), "envelope");

    [Fact]
    public void An_envelope_that_is_too_long_says_how_long_it_may_be()
    {
        var reason = EnvelopeText.Read(Edited(json => json["mood"] = new string('x', 20_000))).Reason!;
        Assert.Equal("envelope-too-long", reason.Code);
        Assert.Equal(EnvelopeText.LongestBytes, reason["allowedBytes"]);
    }

    [Fact]
    public void An_entry_whose_envelope_is_not_canonical_is_refused()
    {
        byte[][] dresses =
        [
            [.. Whole.Bytes.Envelope.Span, (byte)' '],
            Encoding.UTF8.GetBytes(
                JsonNode.Parse(Whole.Bytes.Envelope.Span)!.ToJsonString(new() { WriteIndented = true })
            ),
            Edited(
                json =>
                {
                    // A member that stands last though it sorts first.
                    json["a"] = 1;
                },
                canonical: false
            ),
        ];
        Assert.All(
            dresses,
            bytes =>
                Assert.Equal(
                    "envelope-not-canonical",
                    Entry.Read(new(bytes, Whole.Bytes.SaltedBody)).Reason?.Code
                )
        );
    }

    [Fact]
    public void Half_a_surrogate_pair_in_a_name_is_refused_and_throws_nothing()
    {
        var text = Encoding.UTF8.GetString(Whole.Bytes.Envelope.Span);
        foreach (
            var start in new[] { "{\"\\ud800\":1,", "{\"\\ud800\":1,\"\\udbff\":2,", "{\"a\":\"\\ud800\"," }
        )
        {
            var bytes = Encoding.UTF8.GetBytes(start + text[1..]);
            Assert.NotNull(Entry.Read(new(bytes, default)).Reason);
        }
    }

    [Fact]
    public void Any_flip_of_a_bit_in_an_entry_is_noticed_and_throws_nothing() =>
        Gen.Select(Gen.Int[0, int.MaxValue], Gen.Int[0, 7], Gen.Bool)
            .Sample(
                (at, bit, inBody) =>
                {
                    var envelope = Whole.Bytes.Envelope.ToArray();
                    var body = Whole.Bytes.SaltedBody.ToArray();
                    var bytes = inBody ? body : envelope;
                    bytes[at % bytes.Length] ^= (byte)(1 << bit);
                    var read = Entry.Read(new(envelope, body));
                    // An envelope with one letter changed may still be an envelope, but another one.
                    Assert.True(!read.Succeeded || (!inBody && read.Value.Digest != Whole.Digest));
                    // Bytes that were trusted wrongly still stop nothing.
                    var trusted = Entry.ReadTrusted(new(envelope, body), Whole.Digest);
                    Assert.True(!trusted.Succeeded || trusted.Value.Fact.Subjects().Any());
                },
                iter: 20_000
            );

    [Fact]
    public void Any_bytes_at_all_throw_nothing() =>
        Gen
            .Byte.Array[0, 200]
            .Sample(bytes => Assert.False(Entry.Read(new(bytes, bytes)).Succeeded), iter: 20_000);

    [Fact]
    public void What_is_read_at_a_glance_is_what_the_reader_of_every_form_reads()
    {
        string[] names = ["Ada", "", "Zoë", "a\"b", "back\\slash", "reading taken", new string('x', 70)];
        var texts = Gen.Int[0, names.Length - 1].Select(one => names[one]);
        var moments = Gen.Int[0, 100_000]
            .Select(step => Instant.FromUnixTimeSeconds(step) + Duration.FromTicks(step));
        var envelopes = Gen.Select(texts, texts, moments, Gen.Int[0, 4], Gen.Int[1, 3], Gen.Bool)
            .Select(
                (name, kind, at, aim, sequence, software) =>
                    Whole.Envelope with
                    {
                        Author = new Author(name, software ? kind : null),
                        Kind = kind,
                        Zone = name,
                        Written = at,
                        Happened = Happened.Between(at, at + Duration.FromMinutes(aim)),
                        Sequence = sequence,
                        Previous = sequence == 1 ? null : Whole.Envelope.Previous,
                        Correction = aim is 0 or 4 ? null : new((CorrectionKind)(aim - 1), Whole.Id),
                    }
            );
        var (seen, spoilt) = (0, 0);
        Gen.Select(envelopes, Gen.Int[0, 2_000], Gen.Byte, Gen.Int[0, 3])
            .Sample(
                (envelope, place, letter, how) =>
                {
                    var bytes = EnvelopeText.Write(envelope);
                    place %= bytes.Length;
                    byte[] changed = how switch
                    {
                        0 => bytes,
                        1 => [.. bytes[..place], letter, .. bytes[place..]],
                        2 => [.. bytes[..place], letter, .. bytes[(place + 1)..]],
                        _ => [.. bytes[..place], .. bytes[(place + 1)..]],
                    };
                    if (EnvelopeGlance.Read(changed) is { } read)
                    {
                        Interlocked.Increment(ref how == 0 ? ref seen : ref spoilt);
                        Assert.Equal(EnvelopeText.ReadAny(changed).Value, read);
                    }
                },
                iter: 200_000
            );
        // Both were met often: laid as written, and changed but still whole.
        Assert.True(seen > 5_000, $"{seen} as written");
        Assert.True(spoilt > 1_000, $"{spoilt} changed");
    }

    [Fact]
    public void What_is_written_here_is_read_at_a_glance()
    {
        foreach (
            var aim in new CorrectionKind?[]
            {
                null,
                CorrectionKind.Replaces,
                CorrectionKind.Retracts,
                CorrectionKind.Erases,
            }
        )
        {
            var envelope = Whole.Envelope with
            {
                Author = new Author("broodtide", "0.1.0"),
                Correction = aim is { } kind ? new Correction(kind, Whole.Id) : null,
            };
            Assert.Equal(envelope, EnvelopeGlance.Read(EnvelopeText.Write(envelope)));
        }
    }

    private static Entry Second()
    {
        var pen = new Pen(0);
        pen.Note("first");
        return pen.Note("second", 1);
    }

    private static byte[] Edited(Action<JsonObject> edit, bool canonical = true)
    {
        var json = JsonNode.Parse(Whole.Bytes.Envelope.Span)!.AsObject();
        edit(json);
        var bytes = Encoding.UTF8.GetBytes(json.ToJsonString());
        return canonical ? CanonicalJson.From(bytes) : bytes;
    }

    private static void Refuses(byte[] bytes, string member)
    {
        var reason = EnvelopeText.Read(bytes).Reason;
        Assert.Equal(("envelope-member-wrong", member), (reason?.Code, reason?["member"]));
    }
}
