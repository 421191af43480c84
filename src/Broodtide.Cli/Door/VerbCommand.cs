using System.CommandLine;

namespace Broodtide.Cli.Door;

/// <summary>A verb: its words, its places, the examples its help shows, and what it does.</summary>
internal sealed class VerbCommand : Command
{
    public VerbCommand(
        string name,
        string help,
        IReadOnlyList<string> examples,
        IReadOnlyList<Slot> slots,
        Func<Sitting, Task<int>> act
    )
        : base(name, help)
    {
        Examples = examples;
        Act = act;
        foreach (var slot in slots)
        {
            slot.AddTo(this);
        }

        // The call itself is made by the command line, which knows the surroundings.
        SetAction(_ => 0);
    }

    /// <summary>Whole lines that run on the demo journal, without the program's name.</summary>
    public IReadOnlyList<string> Examples { get; }

    public Func<Sitting, Task<int>> Act { get; }
}
