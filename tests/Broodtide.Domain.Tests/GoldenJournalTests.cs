using System.Runtime.CompilerServices;
using System.Text;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Domain.Tests.Kit;
using Broodtide.Domain.Vessels;
using NodaTime;

namespace Broodtide.Domain.Tests;

/// <summary>
/// Journals that were written once and are never written again: every later version of the program must read them
/// and tell the same. A change of what is told is a change of meaning, to be made on purpose or not at all.
/// </summary>
public class GoldenJournalTests
{
    private const string FirstOne = "golden/journal-v1";
    private const string SecondOne = "golden/journal-v2";
    private const string FifthOne = "golden/journal-v5";
    private const string SixthOne = "golden/journal-v6";
    private const string SeventhOne = "golden/journal-v7";
    private const string NinthOne = "golden/journal-v9";

    // What a feeding by name, a culture, cells under the microscope, a look and light for algae brought.
    private static readonly HashSet<string> NewInSecond =
    [
        "feed described",
        "culture described",
        "culture harvested",
        "vessel looked at",
        "cells counted",
        "water foretold",
        "vessel fed",
        "light changed",
        "reading taken",
        "instrument described",
        "instrument calibrated",
    ];

    [Theory]
    [InlineData(FirstOne)]
    [InlineData(SecondOne)]
    [InlineData(FifthOne)]
    [InlineData(SixthOne)]
    [InlineData(SeventhOne)]
    [InlineData(NinthOne)]
    public void A_journal_is_told_as_it_was_told_then(string name) =>
        Assert.Equal(Files.Lines($"{name}.txt"), Told(Read($"{name}.jsonl")));

    [Theory]
    [InlineData(FirstOne)]
    [InlineData(SecondOne)]
    [InlineData(FifthOne)]
    [InlineData(SixthOne)]
    [InlineData(SeventhOne)]
    [InlineData(NinthOne)]
    public void A_journal_is_written_out_again_byte_for_byte(string name) =>
        Assert.Equal(Files.Lines($"{name}.jsonl"), JournalLines.Write(Read($"{name}.jsonl").Entries));

    [Fact]
    public void The_journals_hold_every_kind_in_its_newest_version_but_photos() =>
        Assert.Superset(
            Kinds.All.Select(kind => (kind.Name, kind.Name == "photo added" ? 1 : kind.Version)).ToHashSet(),
            new[] { FirstOne, SecondOne, FifthOne, SixthOne, SeventhOne, NinthOne }
                .SelectMany(name => Read($"{name}.jsonl").Entries)
                .Select(entry => (entry.Envelope.Kind, entry.Envelope.Version))
                .ToHashSet()
        );

    [Fact]
    public void The_first_journal_holds_every_correction()
    {
        var account = Read("golden/journal-v1.jsonl");
        Assert.Equal(
            Enum.GetValues<CorrectionKind>().Order(),
            account
                .Entries.Select(entry => entry.Envelope.Correction?.Kind)
                .OfType<CorrectionKind>()
                .Distinct()
                .Order()
        );
        Assert.Equal(
            Enum.GetValues<Standing>().Order(),
            account.Entries.Select(account.StandingOf).Distinct().Order()
        );
        Assert.Equal(2, account.UnknownCount);
    }

    // Made the two files. To be run by hand, and only for a version that has none yet: -explicit only.
    [Fact(Explicit = true)]
    public void Make_the_first_journal() => Make(FirstOne, First());

    [Fact(Explicit = true)]
    public void Make_the_second_journal() => Make(SecondOne, Second());

    // What is heard of juveniles given away, and a vessel that is diluted itself.
    [Fact(Explicit = true)]
    public void Make_the_fifth_journal() => Make(FifthOne, Fifth());

    // A count in pictures, and one that says nothing of pictures.
    [Fact(Explicit = true)]
    public void Make_the_sixth_journal() => Make(SixthOne, Sixth());

    // Larvae that were measured.
    [Fact(Explicit = true)]
    public void Make_the_seventh_journal() => Make(SeventhOne, Seventh());

    private static IEnumerable<Entry> Seventh()
    {
        var phone = new Pen(0);
        var sample = Samples.All.OfType<Larvae.LarvaeMeasured>().Single();
        yield return phone.Write(sample, 7);
        yield return phone.Write(
            new Larvae.LarvaeMeasured(sample.Vessel, [new(1800)], Scale: Larvae.ScaleBy.Number),
            14
        );
        yield return phone.Write(
            new Larvae.LarvaeMeasured(sample.Vessel, BeatsPerMinute: [new(90.5, 80, 99)]),
            21
        );
    }

    // A trial, as it was laid out.
    [Fact(Explicit = true)]
    public void Make_the_ninth_journal() => Make(NinthOne, Ninth());

    private static IEnumerable<Entry> Ninth()
    {
        var phone = new Pen(0);
        var sample = Samples.All.OfType<TrialLaidOut>().Single();
        yield return phone.Write(sample, 7);
        yield return phone.Write(sample with { Run = null, Compared = null }, 14);
    }

    private static IEnumerable<Entry> Sixth()
    {
        var phone = new Pen(0);
        var sample = Samples.All.OfType<Larvae.CountMade>().Single();
        yield return phone.Write(sample, 7);
        yield return phone.Write(sample with { Pictures = null }, 14);
        yield return phone.Write(
            sample with
            {
                Method = Larvae.CountMethod.Photo,
                Samples = [new(2)],
                Pictures = sample.Pictures! with
                {
                    Person = Larvae.PersonLooked.Before,
                    Marks = [new(1, 2, Larvae.MarkedBy.Both), new(5, 6, Larvae.MarkedBy.Person)],
                    Setup = null,
                    Known = null,
                },
            },
            21
        );
    }

    private static IEnumerable<Entry> Fifth()
    {
        var phone = new Pen(0);
        VesselId jar = new(Pen.Uuid(0xe4));
        yield return phone.Write(new Larvae.JuvenilesReturned(jar, jar), 7);
        yield return phone.Write(Samples.All.OfType<Larvae.JuvenilesGivenAway>().Single(), 14);
        yield return phone.Write(Samples.All.OfType<Larvae.SurvivalHeard>().Single(), 21);
    }

    private static void Make(string name, IEnumerable<Entry> entries)
    {
        var file = Path.Combine(Path.GetDirectoryName(Here())!, name);
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        Assert.False(File.Exists($"{file}.jsonl"), "It is made once.");
        var account = Account.Of(entries);
        File.WriteAllText($"{file}.jsonl", string.Join('\n', JournalLines.Write(account.Entries)) + "\n");
        File.WriteAllText($"{file}.txt", string.Join('\n', Told(account)) + "\n");
    }

    private static IEnumerable<Entry> Second()
    {
        var phone = new Pen(0);
        var minute = 0;
        foreach (var sample in Samples.All.Where(sample => NewInSecond.Contains(Kinds.Of(sample).Name)))
        {
            yield return phone.Write(sample, minute += 7);
        }

        VesselId jar = new(Pen.Uuid(0xe4));
        yield return phone.Write(new LightChanged(jar, true, 16, new("120", "umol/m2/s", 120)), minute += 7);
        yield return phone.Write(new Readings.ReadingTaken(new("95", "umol/m2/s", 95), jar), minute += 7);
    }

    private static IEnumerable<Entry> First()
    {
        var phone = new Pen(0);
        var server = new Pen(1);
        var minute = 0;
        foreach (var sample in Samples.All.Where(sample => sample is not EntryTakenBack))
        {
            minute += 7;
            var then = Pen.Start + Duration.FromMinutes(minute);
            // Some were seen only hours later, and are told with an interval.
            yield return phone.Write(
                sample,
                minute,
                happened: minute % 5 == 0 ? Happened.Between(then - Duration.FromHours(9), then) : null
            );
        }

        var top = phone.Write(new WaterMoved(To: new(Pen.Uuid(0xe4)), Volume: new("5", "L", 5)), 500);
        yield return top;
        var typo = phone.Write(
            new WaterMoved(To: new(Pen.Uuid(0xe4)), Volume: new("0.5", "L", 0.5)),
            501,
            new(CorrectionKind.Replaces, top.Id)
        );
        yield return typo;
        yield return server.Write(
            new WaterMoved(To: new(Pen.Uuid(0xe4)), Volume: new("0.55", "L", 0.55)),
            502,
            new(CorrectionKind.Replaces, top.Id)
        );
        var twice = server.Note("written twice by mistake", 510);
        yield return twice;
        yield return server.Retract(twice, 511);
        var doubted = server.Note("is this so?", 520);
        yield return doubted;
        var better = server.Replace(doubted, "it is not", 521);
        yield return better;
        yield return server.Retract(better, 522);
        var secret = server.Note("a private matter", 530);
        yield return secret;
        yield return phone.EraseFacts(secret, 531);
        var envelope = secret.Envelope with { Previous = server.Previous, Written = Pen.Start };
        yield return server.Raw(
            envelope with
            {
                Id = new(Pen.Uuid(0x901)),
                Sequence = server.Sequence + 1,
                Kind = "vessel sung to",
                Version = 1,
            },
            """{"song":"slow","vessel":"0195557c-0000-7000-8000-0000000000e4"}""",
            901
        );
        yield return server.Raw(
            envelope with
            {
                Id = new(Pen.Uuid(0x902)),
                Sequence = server.Sequence + 1,
                Previous = server.Previous,
                Kind = "reading taken",
                Version = 7,
            },
            """{"shape":"of another time"}""",
            902
        );
        yield return server.Raw(
            envelope with
            {
                Id = new(Pen.Uuid(0x903)),
                Sequence = server.Sequence + 1,
                Previous = server.Previous,
                Kind = "reading taken",
                Version = 1,
            },
            """{"value":{"typed":"-4","unit":"sal:practical","value":-4}}""",
            903
        );
    }

    private static Account Read(string name) => Account.Of(JournalLines.Read(Files.Lines(name)).Value);

    private static IEnumerable<string> Told(Account account)
    {
        yield return $"# {account.EntryCount} entries, {account.UnknownCount} of them unknown";
        foreach (var occurrence in account.Occurrences)
        {
            yield return $"{UtcText.Format(occurrence.Happened.Earliest)} {UtcText.Format(occurrence.Happened.Latest)} "
                + $"{occurrence.Id.Value} {occurrence.Told.Envelope.Kind}"
                + (occurrence.IsCorrected ? " corrected" : "")
                + (occurrence.HasRivals ? " rivals" : "")
                + $" {Facts(occurrence.Fact)}";
        }

        yield return "# how each entry stands";
        foreach (
            var entry in account
                .Entries.OrderBy(entry => entry.Envelope.Replica.Value)
                .ThenBy(entry => entry.Envelope.Sequence)
        )
        {
            yield return $"{entry.Id.Value} {account.StandingOf(entry)}";
        }

        yield return "# what does not agree";
        foreach (var conflict in account.Conflicts())
        {
            yield return conflict.ToString();
        }
    }

    private static string Facts(Fact fact) =>
        fact is UnknownFact or UnreadableFact or ErasedFact
            ? fact.ToString()
            : Encoding.UTF8.GetString(Kinds.Of(fact).Write(fact));

    private static string Here([CallerFilePath] string path = "") => path;
}
