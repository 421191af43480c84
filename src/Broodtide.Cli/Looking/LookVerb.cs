using System.CommandLine;

namespace Broodtide.Cli.Looking;

/// <summary>What pictures tell.</summary>
internal static class LookVerb
{
    public static Command Make() =>
        new("look", "Look at pictures: what is in them, counted and measured, with how sure it is.")
        {
            LookCountVerb.Make(),
            LookSetupsVerb.Make(),
            LookLabelledVerb.Make(),
            LookCellsVerb.Make(),
            LookScaleVerb.Make(),
            LookLengthVerb.Make(),
            LookLengthsVerb.Make(),
            LookMergeVerb.Make(),
            LookPulseVerb.Make(),
            LookSwimVerb.Make(),
        };
}
