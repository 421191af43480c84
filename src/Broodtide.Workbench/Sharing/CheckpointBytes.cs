using System.Text;
using Broodtide.Domain.Journal;

namespace Broodtide.Workbench.Sharing;

/// <summary>Checkpoints as one byte string: they may be thrown away, so a shape of our own will do.</summary>
public static class CheckpointBytes
{
    /// <summary>The bytes.</summary>
    public static byte[] Write(IReadOnlyList<Checkpoint> checkpoints)
    {
        using var stream = new MemoryStream();
        using (var writer = new BinaryWriter(stream, Encoding.UTF8, leaveOpen: true))
        {
            foreach (var checkpoint in checkpoints)
            {
                writer.Write(checkpoint.Fold);
                writer.Write(checkpoint.Version);
                writer.Write(checkpoint.Position);
                writer.Write(checkpoint.Mark.First);
                writer.Write(checkpoint.Mark.Second);
                writer.Write(checkpoint.State.Length);
                writer.Write(checkpoint.State.Span);
            }
        }

        return stream.ToArray();
    }

    /// <summary>What is whole of them; half a checkpoint is none.</summary>
    public static IReadOnlyList<Checkpoint> Read(byte[] bytes)
    {
        var found = new List<Checkpoint>();
        try
        {
            using var reader = new BinaryReader(new MemoryStream(bytes), Encoding.UTF8);
            while (reader.BaseStream.Position < bytes.Length)
            {
                var (fold, version, position) = (reader.ReadString(), reader.ReadInt32(), reader.ReadInt32());
                var mark = new PrefixMark(reader.ReadUInt64(), reader.ReadUInt64());
                found.Add(
                    new Checkpoint(fold, version, position, mark, reader.ReadBytes(reader.ReadInt32()))
                );
            }
        }
        catch (Exception e) when (e is EndOfStreamException or ArgumentException)
        {
            // Half a checkpoint is none.
        }

        return found;
    }
}
