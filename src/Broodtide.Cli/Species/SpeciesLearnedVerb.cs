using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Storage.Dossiers;
using Broodtide.Units;
using Broodtide.Workbench;
using Broodtide.Workbench.Dossiers;
using Broodtide.Workbench.Pooling;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Species;

/// <summary>What the runs say of a species' numbers, and how to begin the next run with it.</summary>
internal static class SpeciesLearnedVerb
{
    private static Slot Without() =>
        Slot.Options("--without", "Leave this run out; may be said several times.", "RUN");

    private static Slot WithMixed() =>
        Slot.Flag("--with-mixed", "Count runs in whose vessels larvae of several broods lived.");

    private static Slot WithOthers() =>
        Slot.Flag("--with-others", "Count the runs of the dossiers you took in, too.");

    private static Slot WithUnderWay() => Slot.Flag("--with-under-way", "Count runs that are not over.");

    public static VerbCommand Learned()
    {
        var name = Slot.Word("SPECIES", "Code or scientific name.");
        var code = Slot.MaybeWord("QUANTITY", "Only this number, run by run, with what it moves.");
        var slots = new PoolingSlots(Without(), WithMixed(), WithUnderWay(), WithOthers());
        return new(
            "learned",
            "What your runs say of the numbers of a species, and what the next run would be begun with. Nothing is changed.",
            [
                $"species learned {SpeciesProfiles.ReferenceSpecies.Code}",
                $"species learned {SpeciesProfiles.ReferenceSpecies.Code} embryo-degree-days --json",
                $"species learned {SpeciesProfiles.ReferenceSpecies.Code} larval-hazard --with-under-way",
            ],
            [name, code, .. slots.All],
            async sitting =>
            {
                var (profile, quantity, no) = await SpeciesVerb.FindAsync(sitting, name, code);
                if (no is not null || profile is null)
                {
                    return sitting.NotUnderstood([no!]);
                }

                var outlook = await sitting.LookAsync();
                var numbers = await PooledAsync(sitting, outlook, profile, slots);
                if (quantity is not null && numbers.All(number => number.Quantity.Code != quantity.Code))
                {
                    return sitting.Refuse([NotLearnable(quantity, numbers)], await sitting.SayingAsync());
                }

                var saying = await sitting.SayingAsync();
                var naming = new Naming(outlook.House);
                var shown = numbers
                    .Where(number => quantity is null || number.Quantity.Code == quantity.Code)
                    .ToList();
                var answer = new LearnedAnswer(
                    profile.ScientificName,
                    [
                        .. shown.Select(number =>
                            LearnedNumberJson.Of(number, quantity is null ? null : outlook, naming)
                        ),
                    ]
                );
                return sitting.Answer(
                    answer,
                    CliJson.Default.LearnedAnswer,
                    page =>
                    {
                        page.Heading($"{profile.ScientificName}: what the runs say");
                        if (quantity is null)
                        {
                            LearnedPage.All(page, answer);
                        }
                        else
                        {
                            LearnedPage.One(page, answer.Numbers[0], saying);
                        }
                    }
                );
            }
        );
    }

    public static VerbCommand Learn()
    {
        var name = Slot.Word("SPECIES", "Code or scientific name.");
        var code = Slot.Word("QUANTITY", "Which number.");
        var slots = new PoolingSlots(Without(), WithMixed(), WithUnderWay(), WithOthers());
        return new(
            "learn",
            "Begin the next run with what the runs say of a number: written as your own value, with the runs as its reason. The published one stays beside it; species undo takes it back.",
            [$"species learn {SpeciesProfiles.ReferenceSpecies.Code} embryo-degree-days"],
            [name, code, .. slots.All],
            async sitting =>
            {
                var (profile, quantity, no) = await SpeciesVerb.FindAsync(sitting, name, code);
                if (no is not null || profile is null || quantity is null)
                {
                    return sitting.NotUnderstood([no!]);
                }

                var outlook = await sitting.LookAsync();
                var numbers = await PooledAsync(sitting, outlook, profile, slots);
                var number = numbers.FirstOrDefault(it => it.Quantity.Code == quantity.Code);
                if (number is null || number.Choice.Count == 0)
                {
                    return sitting.Refuse(
                        [
                            number is null
                                ? NotLearnable(quantity, numbers)
                                : new Remark("number-no-run-speaks", new Argument("quantity", quantity.Code)),
                        ],
                        await sitting.SayingAsync()
                    );
                }

                var reason =
                    "pooled from "
                    + string.Join(
                        ", ",
                        number
                            .Runs.Where(run => run.LeftOut is LeftOut.No)
                            .Select(run => LearnedPage.Whose(run.Source))
                    );
                return await Entries.AppendAsync(
                    sitting,
                    [
                        .. number.Choice.Select(part =>
                            sitting.Keeper.Write(
                                new ProfileValueChosen(
                                    profile.ScientificName,
                                    part.Code,
                                    profile.Find(part.Code)!.Unit.Code,
                                    part.Value,
                                    part.Low,
                                    part.High,
                                    reason
                                ),
                                Happened.At(sitting.Now)
                            )
                        ),
                    ]
                );
            }
        );
    }

    private static async Task<IReadOnlyList<PooledNumber>> PooledAsync(
        Sitting sitting,
        Outlook outlook,
        SpeciesProfile profile,
        PoolingSlots slots
    )
    {
        IDossierShelf shelf = DossierShelf.Beside(sitting.JournalPath);
        var others = slots.WithOthers.Text(sitting.Parse) is null
            ? []
            : OthersOfShelf.Of(await shelf.RunsAsync(sitting.Cancellation), outlook.House);
        return RunsPooling.Of(
            outlook,
            profile.Code,
            new PoolingWishes
            {
                Without = slots.Without.Texts(sitting.Parse).ToHashSet(StringComparer.OrdinalIgnoreCase),
                WithMixed = slots.WithMixed.Text(sitting.Parse) is not null,
                WithUnderWay = slots.WithUnderWay.Text(sitting.Parse) is not null,
            },
            others
        );
    }

    // What shall be counted in.
    private sealed record PoolingSlots(Slot Without, Slot WithMixed, Slot WithUnderWay, Slot WithOthers)
    {
        public IReadOnlyList<Slot> All => [Without, WithMixed, WithUnderWay, WithOthers];
    }

    private static Remark NotLearnable(ProfileQuantity quantity, IReadOnlyList<PooledNumber> numbers) =>
        new(
            "number-not-learnt-from-runs",
            new("quantity", quantity.Code),
            new("known", string.Join(", ", numbers.Select(number => number.Quantity.Code)))
        );
}
