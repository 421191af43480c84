using Broodtide.Cli.Door;
using Broodtide.Domain.Keeping;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Writing;

/// <summary>Entries about runs, the house, what was due, and notes.</summary>
internal static class KeepingVerbs
{
    public static IEnumerable<EntryVerb> All() =>
        [Run(), RunEnded(), PowerOut(), PowerIn(), Away(), Back(), Done(), Skipped(), Note()];

    private static EntryVerb Run()
    {
        var brood = Slot.Word("BROOD", "The brood.");
        var name = Slot.Word("NAME", "What the run is called here.");
        var species = Slot.Option("--species", "Scientific name: whose numbers apply.", "NAME");
        return new(
            "run",
            "A brood is carried through from now on, under a name.",
            [
                $"write run \"Brood 3\" \"Third try\" --species \"{SpeciesProfiles.ReferenceSpecies.ScientificName}\"",
            ],
            [brood, name, species],
            told =>
                [
                    new RunStarted(
                        told.Same((RunStarted before) => before.Run),
                        told.Said.TheBrood(brood),
                        told.Said.TheName(name),
                        told.Said.Text(species)
                    ),
                ]
        );
    }

    private static EntryVerb RunEnded()
    {
        var run = Slot.Word("RUN", "Which one.");
        var end = Slot.Word("END", "home or given-up.");
        var note = Slot.Option("--note", "Why, in your words.", "TEXT");
        return new(
            "run-ended",
            "You end a run. Few seen is not many dead: nothing here ever ends one by itself.",
            ["write run-ended \"Brood 1\" given-up --note \"none seen for two weeks\""],
            [run, end, note],
            told =>
                [new RunEnded(told.Said.TheRun(run), told.Said.TheMember<RunEnd>(end), told.Said.Text(note))]
        );
    }

    private static EntryVerb PowerOut()
    {
        var note = Slot.Option("--note", "What stood still.", "TEXT");
        return new(
            "power-out",
            "The mains failed.",
            ["write power-out --when \"yesterday 22:10\""],
            [note],
            told => [new PowerFailed(told.Said.Text(note))]
        );
    }

    private static EntryVerb PowerIn()
    {
        var note = Slot.Option("--note", "Anything worth saying.", "TEXT");
        return new(
            "power-in",
            "The mains came back.",
            ["write power-in --when \"yesterday 23:40\""],
            [note],
            told => [new PowerRestored(told.Said.Text(note))]
        );
    }

    private static EntryVerb Away()
    {
        var until = Slot.Option("--until", "Until when, if known.", "TIME");
        var helper = Slot.Option("--helper", "Who looks after the animals.", "NAME");
        return new(
            "away",
            "You are, or will be, away.",
            ["write away --helper Jo"],
            [until, helper],
            told => [new KeeperLeft(told.Said.Time(until)?.Latest, told.Said.Text(helper))]
        );
    }

    private static EntryVerb Back() =>
        new("back", "You are back.", ["write back"], [], _ => [new KeeperReturned()]);

    private static EntryVerb Done()
    {
        var action = Slot.Word("ACTION", "Its key, as \"due\" and \"plan\" show it.");
        var note = Slot.Option("--note", "Anything worth saying.", "TEXT");
        return new(
            "done",
            "An action that was due was done.",
            [],
            [action, note],
            told => [new ActionDone(DueKeys.Find(told.Said, action), null, told.Said.Text(note))]
        );
    }

    private static EntryVerb Skipped()
    {
        var action = Slot.Word("ACTION", "Its key, as \"due\" and \"plan\" show it.");
        var reason = Slot.Option("--reason", "Why.", "TEXT");
        var until = Slot.Option("--until", "Until when it is put off; for good if left out.", "TIME");
        return new(
            "skipped",
            "An action that was due is left out on purpose.",
            [],
            [action, reason, until],
            told =>
                [
                    new ActionSkipped(
                        DueKeys.Find(told.Said, action),
                        null,
                        told.Said.Text(reason),
                        told.Said.Time(until)?.Latest
                    ),
                ]
        );
    }

    private static EntryVerb Note()
    {
        var text = Slot.Word("TEXT", "The words.");
        var vessel = Slot.Option("--vessel", "About this vessel.", "VESSEL");
        var animal = Slot.Option("--animal", "About this animal.", "ANIMAL");
        var run = Slot.Option("--run", "About this run.", "RUN");
        return new(
            "note",
            "Something worth keeping in words.",
            ["write note \"the film on the third plate is thin\" --vessel \"Jar A\""],
            [text, vessel, animal, run],
            told =>
                [
                    new NoteWritten(
                        told.Said.TheText(text),
                        told.Said.Vessel(vessel),
                        told.Said.Animal(animal),
                        told.Said.Run(run)
                    ),
                ]
        );
    }
}
