namespace Broodtide.Simulation.Larvae;

/// <summary>A kind of run that can be asked for by name.</summary>
/// <param name="Name">As on the command line.</param>
/// <param name="Line">What is the matter with it, in one line.</param>
/// <param name="Invent">
/// Makes one run; where all runs are of one structure, a count is made of so many aliquots that share the same water.
/// </param>
public sealed record Scenario(string Name, string Line, Func<Dice, int, Run> Invent)
{
    public static IReadOnlyList<Scenario> All { get; } = [.. OneStructure.All, .. OtherStructures.All];

    public static Scenario? Find(string name) =>
        All.FirstOrDefault(scenario => scenario.Name.Equals(name, StringComparison.Ordinal));

    /// <summary>A run of this kind by its seed and number: the same on every machine, another for every scenario.</summary>
    public Run Number(ulong seed, int number, int aliquots = 4)
    {
        // FNV-1a (Fowler, Noll and Vo), 64 bits, over the name.
        var ofName = Name.Aggregate(
            14695981039346656037UL,
            (hash, letter) => (hash ^ letter) * 1099511628211UL
        );
        return Invent(new Dice(ofName ^ ((seed * 1_000_003UL) + (ulong)number)), aliquots);
    }
}
