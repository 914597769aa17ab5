using Lastoff.Core.Languages;
using Lastoff.Core.Papers;
using SkiaSharp;

namespace Lastoff.Papers;

/// <summary>Small photos, three beside each other, each whole within a frame of 4:3.</summary>
internal sealed class PictureSheet(Sheets sheets, Func<string, TextStyle, float, SetText> set, Tongue tongue)
{
    private const int Across = 3;
    private const float Gap = 12;

    public void Set(Pictures pictures)
    {
        var width = (sheets.Width - (Across - 1) * Gap) / Across;
        var frame = width * 3 / 4;
        foreach (var line in pictures.Items.Chunk(Across))
        {
            var captions = line.Select(picture => set($"{picture.Caption.Text}\n{picture.Sha256[..Math.Min(16, picture.Sha256.Length)]}", PaperInk.Small, width)).ToList();
            var height = frame + 4 + captions.Max(caption => caption.Height) + Gap;
            sheets.NextUnless(height);
            sheets.Draw(height, (canvas, y) =>
            {
                foreach (var (column, picture) in line.Index())
                {
                    var x = Sheets.Side + column * (width + Gap);
                    Draw(canvas, picture, SKRect.Create(x, y, width, frame));
                    captions[column].Draw(canvas, x, y + frame + 4, width, false, 0, captions[column].Lines.Count);
                }
            });
        }
    }

    private void Draw(SKCanvas canvas, Picture picture, SKRect frame)
    {
        using var image = picture.Jpeg is { } jpeg ? SKImage.FromEncodedData(jpeg) : null;
        if (image is null)
        {
            using var pale = new SKPaint { Color = new SKColor(0xF6, 0xF3, 0xEA) };
            canvas.DrawRect(frame, pale);
            var away = SetText.Of(tongue.Say("The picture is not here."), PaperInk.Small, frame.Width - 20);
            away.Draw(canvas, frame.Left + 10, frame.MidY - 6, frame.Width - 20, false, 0, away.Lines.Count);
            return;
        }

        canvas.DrawImage(image, frame.AspectFit(new SKSize(image.Width, image.Height)), new SKSamplingOptions(SKFilterMode.Linear, SKMipmapMode.Linear));
    }
}
