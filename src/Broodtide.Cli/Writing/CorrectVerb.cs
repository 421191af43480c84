using System.CommandLine;
using Broodtide.Cli.Door;
using Broodtide.Domain.Journal;
using Broodtide.Units;

namespace Broodtide.Cli.Writing;

/// <summary>Tells the same fact better.</summary>
internal static class CorrectVerb
{
    public static Command Make()
    {
        var correct = new Command(
            "correct",
            "Tell an entry better: the verb of \"write\", the entry, and all of it as it should have been. What was "
                + "written stays readable. An entry is called by its last figures, or \"last\"."
        );
        foreach (var entry in EntryVerb.All())
        {
            var target = Slot.Word("ENTRY", "The entry, as \"journal\" shows it, or \"last\".");
            var times = new TimeSlots();
            correct.Subcommands.Add(
                new VerbCommand(
                    entry.Name,
                    entry.Help,
                    [],
                    [target, .. entry.Slots, .. times.All],
                    sitting => CorrectAsync(sitting, target, times, told => entry.Tell(told))
                )
            );
        }

        correct.Subcommands.Add(Time());
        return correct;
    }

    private static VerbCommand Time()
    {
        var target = Slot.Word("ENTRY", "The entry, as \"journal\" shows it, or \"last\".");
        var times = new TimeSlots();
        return new(
            "time",
            "Only the time was wrong.",
            ["correct time last --when \"yesterday 21:05\""],
            [target, .. times.All],
            sitting => CorrectAsync(sitting, target, times, null)
        );
    }

    private static async Task<int> CorrectAsync(
        Sitting sitting,
        Slot target,
        TimeSlots times,
        Func<Told, IEnumerable<Fact>>? tell
    )
    {
        var outlook = await sitting.LookAsync();
        var said = new Said(sitting, outlook.House);
        var entry = said.Entry(target);
        var occurrence = entry is null
            ? null
            : outlook.House.Account.Occurrences.FirstOrDefault(o =>
                o.Told.Id == entry.Id || o.Id == entry.Id
            );
        if (entry is not null && occurrence is null)
        {
            return sitting.Refuse(
                [new Remark("entry-does-not-stand", new Argument("entry", entry.Id))],
                await sitting.SayingAsync()
            );
        }

        var before = occurrence?.Fact;
        var facts = tell is null
            ? before is null
                ? []
                : [before]
            : tell(new Told(said, before)).ToList();
        var happened = said.When(times.When, times.Since) ?? occurrence?.Happened;
        if (said.Wrong.Count > 0 || occurrence is null || happened is not { } when)
        {
            return sitting.NotUnderstood(said.Wrong, await sitting.SayingAsync());
        }

        return await Entries.WriteAsync(
            sitting,
            facts,
            when,
            said.Flag(times.Yes),
            (fact, then) => sitting.Keeper.Correct(occurrence, fact, then)
        );
    }
}
