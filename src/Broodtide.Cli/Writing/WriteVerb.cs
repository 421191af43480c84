using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Cli.Words;
using Broodtide.Domain.Journal;
using Broodtide.Units;
using Broodtide.Workbench.Recording;

namespace Broodtide.Cli.Writing;

/// <summary>Writes an entry.</summary>
internal static class WriteVerb
{
    public static Command Make()
    {
        var write = new Command(
            "write",
            "Write down what happened. Nothing is refused but what cannot be; what is improbable is asked back."
        );
        foreach (var entry in EntryVerb.All())
        {
            var times = new TimeSlots();
            write.Subcommands.Add(
                new VerbCommand(
                    entry.Name,
                    entry.Help,
                    entry.Examples,
                    [.. entry.Slots, .. times.All],
                    sitting => WriteAsync(sitting, entry, times)
                )
            );
        }

        return write;
    }

    private static async Task<int> WriteAsync(Sitting sitting, EntryVerb entry, TimeSlots times)
    {
        var outlook = await sitting.LookAsync();
        var said = new Said(sitting, outlook.House);
        var facts = entry.Tell(new Told(said, null)).ToList();
        var happened = said.When(times.When, times.Since) ?? Happened.At(sitting.Now);
        return said.Wrong.Count > 0
            ? sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync())
            : await Entries.WriteAsync(sitting, facts, happened, said.Flag(times.Yes), sitting.Keeper.Write);
    }
}

/// <summary>The places every entry has beside its own.</summary>
internal sealed class TimeSlots
{
    public Slot When { get; } = Slot.Option("--when", $"When it happened: {WhenText.Allowed}.", "TIME");

    public Slot Since { get; } = Slot.Option("--since", "Some time since then, up to --when or now.", "TIME");

    public Slot Yes { get; } =
        Slot.Flag("--yes", "Store as typed what was asked back; it is marked as doubted.");

    public IReadOnlyList<Slot> All => [When, Since, Yes];
}

/// <summary>An entry that was written.</summary>
internal sealed record WrittenEntry(
    string Id,
    string ShortId,
    string Kind,
    string HappenedFrom,
    string HappenedTo,
    string Words,
    bool Doubted
);

/// <summary>What was written, and what it is in conflict with.</summary>
internal sealed record WrittenAnswer(
    IReadOnlyList<WrittenEntry> Written,
    IReadOnlyList<RemarkJson> NewConflicts
);

/// <summary>A question before anything is written.</summary>
internal sealed record QuestionJson(string Code, string Words, string? LikelierWords);

/// <summary>What is asked back; nothing was written.</summary>
internal sealed record AskedAnswer(string Outcome, IReadOnlyList<QuestionJson> Questions);

/// <summary>Asks back, writes, and tells what was written.</summary>
internal static class Entries
{
    public static async Task<int> WriteAsync(
        Sitting sitting,
        IReadOnlyList<Fact> facts,
        Happened happened,
        bool stand,
        Func<Fact, Happened?, Draft> draft
    )
    {
        var outlook = await sitting.LookAsync();
        var saying = await sitting.SayingAsync();
        var asked = facts.Select(fact => AskBack.For(fact, happened, outlook.House, sitting.Clock)).ToList();
        if (asked.Exists(questions => questions.Count > 0) && !stand)
        {
            return Ask(sitting, saying, facts, asked);
        }

        var drafts = facts
            .Zip(asked, (fact, questions) => draft(AskBack.AsTyped(fact, questions), happened))
            .ToList();
        var impossible = drafts.Select(d => d.Impossible()).OfType<Remark>().ToList();
        return impossible.Count > 0 ? sitting.Refuse(impossible, saying) : await AppendAsync(sitting, drafts);
    }

    /// <summary>Writes drafts without asking.</summary>
    public static async Task<int> AppendAsync(Sitting sitting, IReadOnlyList<Draft> drafts)
    {
        var before = (await sitting.LookAsync()).House.Conflicts();
        var journal = await sitting.OpenAsync();
        var entries = await journal.AppendAsync(drafts, sitting.Cancellation);
        sitting.LookAnew();
        var house = (await sitting.LookAsync()).House;
        var saying = await sitting.SayingAsync();
        var facts = new FactWords(saying, house);
        var answer = new WrittenAnswer(
            [
                .. entries.Select(entry => new WrittenEntry(
                    entry.Id.Value.ToString(),
                    Naming.Short(entry.Id),
                    entry.Envelope.Kind,
                    Saying.Iso(entry.Envelope.Happened.Earliest),
                    Saying.Iso(entry.Envelope.Happened.Latest),
                    facts.Of(entry.Fact),
                    entry.Fact.Numbers().Any(n => n.Number is { Doubted: true })
                )),
            ],
            [.. house.Conflicts().Except(before).Select(saying.Json)]
        );
        return sitting.Answer(
            answer,
            CliJson.Default.WrittenAnswer,
            page =>
            {
                foreach (var (entry, written) in entries.Zip(answer.Written))
                {
                    page.Line(
                        $"Written {written.ShortId}: {written.Words} ({saying.Time(entry.Envelope.Happened)})."
                    );
                }

                foreach (var conflict in answer.NewConflicts)
                {
                    page.Line($"Stored all the same: {conflict.Words}");
                }
            }
        );
    }

    private static int Ask(
        Sitting sitting,
        Saying saying,
        IReadOnlyList<Fact> facts,
        List<IReadOnlyList<Question>> asked
    )
    {
        var words = new FactWords(saying, sitting.Looked.House);
        var questions = asked
            .SelectMany(list => list)
            .Select(question => new QuestionJson(
                question.Remark.Code,
                saying.Of(question.Remark),
                question.Likelier is { } likelier ? words.Of(likelier)
                    : question.LikelierWhen is { } when ? saying.Time(when)
                    : null
            ))
            .ToList();
        var possible = facts.All(fact => fact.Impossible() is null);
        if (sitting.Json)
        {
            sitting.Answer(new AskedAnswer("asked-back", questions), CliJson.Default.AskedAnswer, _ => { });
            return ExitCode.RuleSaysNo;
        }

        foreach (var question in questions)
        {
            sitting.Surroundings.Error.WriteLine(question.Words);
            if (question.LikelierWords is { } likelier)
            {
                sitting.Surroundings.Error.WriteLine($"  More likely meant: {likelier}");
            }
        }

        sitting.Surroundings.Error.WriteLine(
            possible
                ? "Nothing was written. Say it as it was meant, or add --yes to store it as typed, marked as doubted."
                : "Nothing was written, and as typed it cannot be. Say it as it was meant."
        );
        return ExitCode.RuleSaysNo;
    }
}
