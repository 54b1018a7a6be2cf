# The models' files, packed into the program (suggest/models).
        .section .rodata
        .global pritchel_lateromedial_model
        .global pritchel_lateromedial_model_end
        .global pritchel_dorsopalmar_model
        .global pritchel_dorsopalmar_model_end
pritchel_lateromedial_model:
        .incbin "lateromedial.model"
pritchel_lateromedial_model_end:
pritchel_dorsopalmar_model:
        .incbin "dorsopalmar.model"
pritchel_dorsopalmar_model_end:
        .section .note.GNU-stack, "", %progbits
