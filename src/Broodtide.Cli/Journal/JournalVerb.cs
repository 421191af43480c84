using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench;

namespace Broodtide.Cli.Journal;

/// <summary>One entry or occurrence for machines.</summary>
internal sealed record EntryJson(
    string Id,
    string ShortId,
    string Kind,
    int Version,
    string HappenedFrom,
    string HappenedTo,
    string Written,
    string Author,
    string Standing,
    bool Corrected,
    bool Rivals,
    bool Doubted,
    string Words
);

/// <summary>The journal as it is told.</summary>
internal sealed record JournalAnswer(
    int EntryCount,
    int UnknownKindCount,
    IReadOnlyList<EntryJson> Entries,
    IReadOnlyList<RemarkJson> Conflicts
);

/// <summary>Lists the journal.</summary>
internal static class JournalVerb
{
    public static Command Make()
    {
        var about = Slot.Option(
            "--about",
            "Only what speaks of this vessel, animal, brood, run or instrument.",
            "NAME"
        );
        var last = Slot.Option("--last", "Only so many, the newest.", "COUNT");
        var all = Slot.Flag("--all", "Every entry: also what was replaced, taken back or erased.");
        return new VerbCommand(
            "journal",
            "List what happened, as it is told after all corrections; then what does not agree.",
            ["journal --last 10", "journal --about \"Jar A\" --last 5", "journal --all --last 20 --json"],
            [about, last, all],
            async sitting =>
            {
                var outlook = await sitting.LookAsync();
                var saying = await sitting.SayingAsync();
                var said = new Said(sitting, outlook.House);
                var subject = said.Text(about) is { } name ? SubjectOf(said, name) : null;
                var most = said.Count(last);
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong, saying);
                }

                return Answer(sitting, outlook, saying, subject, most, said.Flag(all));
            }
        );
    }

    private static int Answer(
        Sitting sitting,
        Outlook outlook,
        Saying saying,
        Subject? subject,
        int? most,
        bool all
    )
    {
        var account = outlook.House.Account;
        var words = new FactWords(saying, outlook.House);
        var told = subject is { } about ? account.About(about) : account.Occurrences;
        var chosen = all
            ? account
                .Entries.Where(entry => subject is not { } s || entry.Fact.Subjects().Contains(s))
                .Order(OrderOfTelling.Instance)
                .Select(entry => (Entry: entry, Told: (Occurrence?)null))
                .ToList()
            : [.. told.Select(o => (o.Told, (Occurrence?)o))];
        var from = most is { } count ? Math.Max(0, chosen.Count - Math.Max(0, count)) : 0;
        var listed = chosen
            .Skip(from)
            .Select(line =>
                line.Told is { } o
                    ? Line(words, line.Entry, Standing.Stands, o.IsCorrected, o.HasRivals)
                    : Line(words, line.Entry, account.StandingOf(line.Entry), false, false)
            )
            .ToList();
        var answer = new JournalAnswer(
            account.EntryCount,
            account.UnknownCount,
            listed,
            [.. outlook.Conflicts.Select(saying.Json)]
        );
        return sitting.Answer(
            answer,
            CliJson.Default.JournalAnswer,
            page =>
            {
                page.Table(
                    ["happened", "what", "who", "entry", ""],
                    listed.Select(line =>
                        (IReadOnlyList<string>)
                            [Happened(saying, line), line.Words, line.Author, line.ShortId, Marks(line)]
                    )
                );
                page.Line($"{listed.Count} listed of {account.EntryCount} entries.");
                if (answer.UnknownKindCount > 0)
                {
                    page.Line(
                        $"{answer.UnknownKindCount} need a newer version of Broodtide; they are kept as they are."
                    );
                }

                foreach (var conflict in answer.Conflicts)
                {
                    page.Line($"Does not agree: {conflict.Words}");
                }
            }
        );
    }

    private static EntryJson Line(
        FactWords words,
        Entry entry,
        Standing standing,
        bool corrected,
        bool rivals
    ) =>
        new(
            entry.Id.Value.ToString(),
            Naming.Short(entry.Id),
            entry.Envelope.Kind,
            entry.Envelope.Version,
            Saying.Iso(entry.Envelope.Happened.Earliest),
            Saying.Iso(entry.Envelope.Happened.Latest),
            Saying.Iso(entry.Envelope.Written),
            entry.Envelope.Author.Name,
            EnumWords.Of(standing),
            corrected,
            rivals,
            entry.Fact.Numbers().Any(n => n.Number is { Doubted: true }),
            words.Of(entry.Fact)
        );

    private static string Happened(Saying saying, EntryJson line)
    {
        var from = NodaTime.Text.InstantPattern.ExtendedIso.Parse(line.HappenedFrom).Value;
        var to = NodaTime.Text.InstantPattern.ExtendedIso.Parse(line.HappenedTo).Value;
        return saying.Time(Domain.Journal.Happened.Between(from, to));
    }

    private static string Marks(EntryJson line)
    {
        string?[] marks =
        [
            line.Standing == "stands" ? null : line.Standing.Replace('-', ' '),
            line.Corrected ? "corrected" : null,
            line.Rivals ? "rivals" : null,
            line.Doubted ? "doubted" : null,
        ];
        return string.Join(", ", marks.OfType<string>());
    }

    private static Subject? SubjectOf(Said said, string name)
    {
        var naming = said.Naming;
        if (naming.Vessel(name) is { Succeeded: true } vessel)
        {
            return Subject.Of(vessel.Value);
        }

        if (naming.Animal(name) is { Succeeded: true } animal)
        {
            return Subject.Of(animal.Value);
        }

        if (naming.Brood(name) is { Succeeded: true } brood)
        {
            return Subject.Of(brood.Value);
        }

        if (naming.Run(name) is { Succeeded: true } run)
        {
            return Subject.Of(run.Value);
        }

        if (naming.Instrument(name) is { Succeeded: true } instrument)
        {
            return Subject.Of(instrument.Value);
        }

        said.Add(
            new Remark(
                "name-unknown",
                new("sort", "thing"),
                new("typed", name),
                new("known", string.Join(", ", Known(said.House).Select(known => $"\"{known}\"")))
            )
        );
        return null;
    }

    private static IEnumerable<string> Known(House house) =>
        house
            .Vessels.Select(v => v.Name)
            .Concat(house.Animals.Select(a => a.Name))
            .Concat(house.Broods.Select(b => b.Name))
            .Concat(house.Runs.Select(r => r.Name))
            .Concat(house.Instruments.Select(i => i.Description?.Name))
            .OfType<string>()
            .Distinct(StringComparer.Ordinal);
}
