namespace Broodtide.Science.Imaging.Registration;

/// <summary>What two pictures of one scene may differ by, beside blur, brightness and contrast.</summary>
public enum Movement
{
    /// <summary>A shift: two numbers.</summary>
    Shift,

    /// <summary>A shift, a turn and a change of size: four numbers.</summary>
    Similarity,

    /// <summary>Any map that keeps lines straight and parallel: six numbers.</summary>
    Affine,
}

/// <summary>How a frame lies over the frame it was compared with.</summary>
/// <param name="Map">Where a pixel of the reference lies in the frame.</param>
/// <param name="Correlation">
/// Of the texture of both, blurred to where they agree best: 1 for the same, 0 for nothing in common, -1 to 1.
/// </param>
/// <param name="Steps">How many times the map was corrected.</param>
public sealed record Registered(AffineMap Map, double Correlation, int Steps);
