namespace Broodtide.Science.Imaging.Registration;

/// <summary>Some whole rows of a picture: all that resampling a part of another picture looks at.</summary>
internal readonly ref struct Strip(ReadOnlySpan<float> values, GridShape picture, int top)
{
    public ReadOnlySpan<float> Values { get; } = values;

    public GridShape Picture { get; } = picture;

    public int Top { get; } = top;

    /// <summary>A row of the picture; beyond the edge the outermost one.</summary>
    public ReadOnlySpan<float> Row(int y) =>
        Values.Slice((Math.Clamp(y, 0, Picture.Down - 1) - Top) * Picture.Across, Picture.Across);

    /// <summary>A column of the picture; beyond the edge the outermost one.</summary>
    public int Column(int x) => Math.Clamp(x, 0, Picture.Across - 1);
}
