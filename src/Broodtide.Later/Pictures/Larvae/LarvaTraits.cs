namespace Broodtide.Phone.Pictures;

/// <summary>The swimming legs under the tail, from none to bristled.</summary>
public enum Pleopods
{
    None,

    /// <summary>Short buds.</summary>
    Buds,

    /// <summary>Long and two-branched.</summary>
    Branched,

    /// <summary>Two-branched with bristles.</summary>
    Bristled,
}

/// <summary>A part of the drawing that can be held under the glass.</summary>
public enum LarvaPart
{
    Eyes,
    TailBristles,
    OuterBranches,
    InnerBranches,
    TailPlate,
    Pleopods,

    /// <summary>Whether it comes to a light.</summary>
    Light,

    /// <summary>How it stands and walks.</summary>
    Stance,
}

/// <summary>
/// The characters that a drawing of a larva shows. What is not among them is a sketch and the same in every stage.
/// </summary>
public sealed record LarvaTraits
{
    /// <summary>Whether the eyes stand on stalks.</summary>
    public bool EyesStalked { get; init; }

    /// <summary>Bristles at the end of the tail plate.</summary>
    public int TailBristles { get; init; } = 14;

    /// <summary>Whether the tail fan has its outer branches.</summary>
    public bool OuterBranches { get; init; }

    /// <summary>Whether the tail fan has its inner branches.</summary>
    public bool InnerBranches { get; init; }

    /// <summary>Whether the tail plate is a rectangle; a fan before that.</summary>
    public bool TailPlateRectangle { get; init; }

    public Pleopods Pleopods { get; init; }

    /// <summary>Teeth on the spine of the forehead.</summary>
    public int RostralTeeth { get; init; }

    /// <summary>Whether it leaves the light that it came to before.</summary>
    public bool LeavesLight { get; init; }

    /// <summary>Whether it walks on the bottom, head up.</summary>
    public bool Walks { get; init; }

    /// <summary>How far it has grown, 0 for the first stage to 1 for the post-larva; the drawing is not to scale.</summary>
    public double Growth { get; init; }

    /// <summary>The parts that tell this stage from the one before.</summary>
    public IReadOnlyList<LarvaPart> ToLookFor { get; init; } = [];
}
