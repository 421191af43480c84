namespace Broodtide.Phone.Looking;

/// <summary>What a mark on a picture says.</summary>
public enum BoardLook
{
    /// <summary>Found by the program.</summary>
    Found,

    /// <summary>Found by the program and taken away by a person.</summary>
    Removed,

    /// <summary>Added by a person.</summary>
    Added,
}

/// <summary>A ring about a place of a picture, in its pixels from the middle of its first one.</summary>
public readonly record struct BoardMark(double X, double Y, double Radius, BoardLook Look);

/// <summary>A tap on a picture, in its pixels, with the number of the mark it fell on.</summary>
public readonly record struct BoardTap(double X, double Y, int? Mark);
