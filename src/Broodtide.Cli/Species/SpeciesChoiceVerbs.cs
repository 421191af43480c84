using Broodtide.Cli.Door;
using Broodtide.Cli.Writing;
using Broodtide.Domain.Journal;
using Broodtide.Domain.Keeping;
using Broodtide.Units;
using Broodtide.Workbench.Species;

namespace Broodtide.Cli.Species;

/// <summary>The keeper's own values: put in the place of a number, and taken back.</summary>
internal static class SpeciesChoiceVerbs
{
    public static VerbCommand Choose()
    {
        var name = Slot.Word("SPECIES", "Code or scientific name.");
        var code = Slot.Word("QUANTITY", "Which number.");
        var value = Slot.Option("--value", "The value.", "NUMBER");
        var low = Slot.Option("--low", "The low end.", "NUMBER");
        var high = Slot.Option("--high", "The high end.", "NUMBER");
        var unit = Slot.Option("--unit", "Unit of the three; the profile's if left out.", "UNIT");
        var reason = Slot.Option("--reason", "Why; needed.", "TEXT");
        return new(
            "choose",
            "Put your own value in the place of a number. The original stays beside it, with your reason.",
            [
                $"species choose {SpeciesProfiles.ReferenceSpecies.Code} larval-salinity-target --value 32 --reason \"my last brood did well at it\"",
            ],
            [name, code, value, low, high, unit, reason],
            async sitting =>
            {
                var (profile, quantity, no) = await SpeciesVerb.FindAsync(sitting, name, code);
                if (no is not null || profile is null || quantity is null)
                {
                    return sitting.NotUnderstood([no!]);
                }

                var said = new Said(sitting, (await sitting.LookAsync()).House);
                var fact = new ProfileValueChosen(
                    profile.ScientificName,
                    quantity.Code,
                    said.Text(unit) ?? quantity.Unit.Code,
                    said.Number(value),
                    said.Number(low),
                    said.Number(high),
                    said.Text(reason)
                );
                if (said.Wrong.Count > 0)
                {
                    return sitting.NotUnderstood(said.Wrong);
                }

                // What could not stand would only be a conflict in the journal: say so before it is written.
                var tried = profile.With([
                    new ProfileChoice(
                        fact.Quantity,
                        fact.Value,
                        fact.Low,
                        fact.High,
                        fact.Unit,
                        fact.Reason ?? "",
                        sitting.Author.Name,
                        sitting.Now
                    ),
                ]);
                return tried.Conflicts is [var conflict, ..]
                    ? sitting.Refuse([
                        new Remark(
                            conflict.Code,
                            new("quantity", fact.Quantity),
                            new("unit", fact.Unit),
                            new("when", sitting.Now),
                            new("allowed", string.Join(", ", conflict.Allowed))
                        ),
                    ])
                    : await Entries.AppendAsync(
                        sitting,
                        [sitting.Keeper.Write(fact, Happened.At(sitting.Now))]
                    );
            }
        );
    }

    public static VerbCommand Undo()
    {
        var name = Slot.Word("SPECIES", "Code or scientific name.");
        var code = Slot.Word("QUANTITY", "Which number.");
        return new(
            "undo",
            "Take your own value back: the original holds again.",
            [],
            [name, code],
            async sitting =>
            {
                var (profile, quantity, no) = await SpeciesVerb.FindAsync(sitting, name, code);
                if (no is not null || profile is null || quantity is null)
                {
                    return sitting.NotUnderstood([no!]);
                }

                var chosen = (await sitting.LookAsync())
                    .House.Account.About(Subject.House)
                    .Where(o =>
                        o.Fact is ProfileValueChosen fact
                        && fact.Quantity == quantity.Code
                        && SpeciesProfiles.Find(fact.Species)?.Code == profile.Code
                    )
                    .Select(o => sitting.Keeper.TakeBack(o.Told))
                    .ToList();
                return chosen.Count == 0
                    ? sitting.Refuse([new Remark("nothing-chosen", new Argument("quantity", quantity.Code))])
                    : await Entries.AppendAsync(sitting, chosen);
            }
        );
    }
}
