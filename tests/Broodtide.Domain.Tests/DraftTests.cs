using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Larvae;
using Broodtide.Domain.Readings;
using Broodtide.Domain.Tests.Kit;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Domain.Tests;

public class DraftTests
{
    private static readonly VesselId Jar = new(Pen.Uuid(1));

    public static TheoryData<string, Fact> Impossible() =>
        new()
        {
            { "number-impossible", new ReadingTaken(new("NaN", "sal:practical", double.NaN), Jar) },
            { "number-impossible", new ReadingTaken(new("1e999", "Cel", double.PositiveInfinity), Jar) },
            { "number-impossible", new ReadingTaken(new("-300", "Cel", -300), Jar) },
            { "number-impossible", new WaterMoved(To: Jar, Mix: new("-5", "g", -5)) },
            {
                "number-impossible",
                new VesselFilled(Jar, new(Pen.Uuid(2)), new("1", "L", 1), VolumeErrorShare: -1)
            },
            {
                "number-impossible",
                new VesselFilled(Jar, new(Pen.Uuid(2)), new("1", "L", 1), VolumeErrorShare: double.NaN)
            },
            { "number-impossible", new LightChanged(Jar, true, 25) },
            {
                "number-impossible",
                new InstrumentDescribed(new(Pen.Uuid(3)), "x", InstrumentKind.Scale, Error: -0.1)
            },
            { "number-impossible", Forecast(1, 3, 2) },
            { "number-impossible", Forecast(double.NaN, 3, 4) },
            { "unit-unknown", new ReadingTaken(new("35", "ppt", 35), Jar) },
            { "unit-unknown", new InstrumentDescribed(new(Pen.Uuid(3)), "x", InstrumentKind.Scale, "ppt") },
            { "unit-of-another-kind", new WaterMoved(To: Jar, Volume: new("5", "g", 5)) },
            {
                "unit-of-another-kind",
                new InstrumentCalibrated(
                    new(Pen.Uuid(3)),
                    new("35", "Cel", 35),
                    new("35", "sal:practical", 35)
                )
            },
            { "count-negative", new DeadRemoved(Jar, -1) },
            { "count-negative", new CountMade(Jar, CountMethod.Full, [new(3), new(-3)]) },
            { "count-negative", new PhotoAdded(new string('a', 64), "image/jpeg", -1) },
            { "hash-unreadable", new PhotoAdded("ABC", "image/jpeg", 1) },
            { "day-unreadable", Forecast(1, 2, 3) with { Day = "2 March" } },
            { "list-has-a-hole", new CountMade(Jar, CountMethod.Full, [null!]) },
            { "fact-does-not-go-with-correction", new EntryTakenBack() },
        };

    [Theory]
    [MemberData(nameof(Impossible))]
    public void What_cannot_be_is_refused_before_it_is_an_entry(string code, Fact fact)
    {
        Assert.Equal(code, Draft(fact).Impossible()?.Code);
        Assert.Throws<ArgumentException>(() => Seal(Draft(fact)));
    }

    [Theory]
    [InlineData("""{"value":{"typed":"-5","unit":"sal:practical","value":-5}}""")]
    [InlineData("""{"value":{"typed":"5","unit":"ppt","value":5}}""")]
    [InlineData("""{"value":{"typed":"5","unit":"L"}}""")]
    [InlineData("""{"value":"5 L"}""")]
    [InlineData("[]")]
    public void Such_facts_from_elsewhere_are_kept_and_stop_no_fold(string body)
    {
        var pen = new Pen(0);
        var envelope = pen.Note("for its envelope").Envelope with
        {
            Kind = "reading taken",
            Sequence = 2,
            Previous = pen.Previous,
        };
        var bad = pen.Raw(envelope with { Id = new(Pen.Uuid(99)) }, body, 1);
        var account = Account.Of([bad, pen.Note("after", 3)]);
        Assert.Equal(2, account.Occurrences.Count);
        Assert.IsType<UnreadableFact>(bad.Fact);
        Assert.Contains(account.Conflicts(), conflict => conflict.Code == "facts-unreadable");
        Assert.Equal(2, account.About(Subject.House).Count());
    }

    [Theory]
    [InlineData(CorrectionKind.Retracts)]
    [InlineData(CorrectionKind.Erases)]
    public void Taking_back_has_no_facts_of_its_own(CorrectionKind kind)
    {
        var draft = Draft(new NoteWritten("x"), new(kind, new(Pen.Uuid(5))));
        Assert.Equal("fact-does-not-go-with-correction", draft.Impossible()?.Code);
        Assert.Throws<ArgumentException>(() => Seal(draft));
    }

    [Fact]
    public void No_entry_corrects_itself()
    {
        var draft = Draft(new NoteWritten("x"), new(CorrectionKind.Replaces, new(Pen.Uuid(50))));
        Assert.Equal("corrects-itself", draft.Impossible()?.Code);
        Assert.Throws<ArgumentException>(() => Seal(draft));
    }

    [Fact]
    public void What_does_not_fit_an_envelope_is_refused()
    {
        var note = Draft(new NoteWritten("x"));
        Assert.Throws<ArgumentException>(() => Seal(note with { Zone = new string('z', 20_000) }));
        Assert.Throws<ArgumentException>(() => Seal(note with { Written = Instant.MinValue }));
        Assert.Throws<ArgumentException>(() =>
            Seal(note with { Fact = new NoteWritten(new string('x', 1_100_000)) })
        );
        Assert.Throws<ArgumentException>(() => note.Seal(new(Pen.Uuid(1)), 0, null, new byte[16]));
        Assert.Throws<ArgumentException>(() => note.Seal(new(Pen.Uuid(1)), 2, null, new byte[16]));
        Assert.Throws<ArgumentException>(() => note.Seal(new(Pen.Uuid(1)), 1, null, new byte[15]));
    }

    [Fact]
    public void The_same_facts_with_other_salt_cannot_be_told_from_the_hash()
    {
        var draft = Draft(new NoteWritten("yes"));
        var one = draft.Seal(new(Pen.Uuid(1)), 1, null, Pen.Salt(1));
        var other = draft.Seal(new(Pen.Uuid(1)), 1, null, Pen.Salt(2));
        Assert.NotEqual(one.Envelope.Body, other.Envelope.Body);
        Assert.NotEqual(one.Envelope.Body, Digest.Of(Encoding.UTF8.GetBytes("""{"text":"yes"}""")));
        Assert.Equal(one.Fact, other.Fact);
    }

    [Fact]
    public void Words_of_every_language_are_kept_as_they_are()
    {
        const string Words = "\u00e4\u03b1\u4e2d\ud83e\udd90 \"quoted\" \\ \u0000 \u2028 </script>";
        var entry = Seal(Draft(new NoteWritten(Words)) with { Author = new Author(Words) });
        var read = Entry.Read(entry.Bytes).Value;
        Assert.Equal(new NoteWritten(Words), read.Fact);
        Assert.Equal(Words, read.Envelope.Author.Name);
    }

    private static ForecastIssued Forecast(double low, double middle, double high) =>
        new(new(Pen.Uuid(4)), "first-hatch", "2026-03-02", "0.1.0", Pen.Start, "d", low, middle, high);

    private static Draft Draft(Fact fact, Correction? correction = null) =>
        new(
            new EntryId(Pen.Uuid(50)),
            new Author("Ada"),
            Pen.Start,
            "Europe/Berlin",
            Happened.At(Pen.Start),
            fact,
            correction
        );

    private static Entry Seal(Draft draft) => draft.Seal(new(Pen.Uuid(1)), 1, null, Pen.Salt(1));
}
