using System.CommandLine;

namespace Broodtide.Cli.Comparing;

/// <summary>Compares vessels: those of a table, of the journal, doses, and lives watched one by one.</summary>
internal static class CompareVerb
{
    public static Command Make()
    {
        var compare = new Command(
            "compare",
            "Compare treatments with the vessel as the unit: intervals first, p by dealing the vessels anew, no test from one vessel of each."
        );
        compare.Subcommands.Add(CompareVesselsVerbs.Runs());
        compare.Subcommands.Add(CompareVesselsVerbs.Vessels());
        compare.Subcommands.Add(CompareVesselsVerbs.Trial());
        compare.Subcommands.Add(CompareTableVerb.Make());
        compare.Subcommands.Add(CompareDosesVerb.Make());
        compare.Subcommands.Add(CompareLivesVerb.Make());
        return compare;
    }
}
