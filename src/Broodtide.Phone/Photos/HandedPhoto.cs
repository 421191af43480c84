namespace Broodtide.Phone.Photos;

/// <summary>A picture that one page made and another is to keep: taken once, then gone.</summary>
internal sealed class HandedPhoto
{
    private byte[]? _file;

    public void Hand(byte[] file) => _file = file;

    public byte[]? Take()
    {
        var file = _file;
        _file = null;
        return file;
    }
}
